"""Which checks is a handover record held to?

A check is a function from a record to remarks; it looks only at figures that are filled in and possible.
A danger is told from a figure as it was written, however far out it is.
"""

from collections.abc import Callable, Iterator
from typing import Final, TypeAlias

from kb.engineering.checks import combustion, flue, gas, heat, plate, possible, supply, water
from kb.engineering.record import Readings
from kb.engineering.remark import Remark

Check: TypeAlias = Callable[[Readings], Iterator[Remark]]

CHECKS: Final[tuple[Check, ...]] = (
    possible.possible,
    *plate.CHECKS,
    *water.CHECKS,
    *supply.CHECKS,
    gas.gas_rate,
    *combustion.CHECKS,
    *heat.CHECKS,
    flue.flue_length,
)
"""Every check, in the order of a handover record."""

"""Which gas pressures are usual at a meter and an appliance, and which are dangerous?"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final


@dataclass(frozen=True, slots=True)
class Bands:
    """The usual pressures of a gas in mbar: standing, working at the meter from `low` to `high`, and the drop.

    Above `standing_danger` or `working_danger` a regulator cannot be holding.
    """

    nominal: float
    standing: float
    low: float
    high: float
    drop: float
    standing_danger: float
    working_danger: float


BANDS: Final[Mapping[str, Bands]] = MappingProxyType(
    {
        "natural-gas": Bands(21, 30, 19, 23, 1.0, 40, 30),
        "lpg": Bands(37, 45, 32, 42, 2.5, 60, 50),
    }
)
"""The usual pressures by fuel.

Natural gas: 21 ± 2 mbar at the meter (IGEM/G/13), at most 1 mbar of drop (BS 6891), standing about 30 at most.
A six-minute test with everything on expects an average of 18.5 to 22 mbar; the narrower line is the one to ask about.
Propane: 37 ± 5 mbar and a drop of about 2.5 (common practice).
The two danger lines are this project's judgement: so far above that a regulator has failed or a figure is wrong.
"""


def drop(at_meter: float, at_appliance: float) -> float:
    """The working pressure lost between meter and appliance.

    Formula: drop = working pressure at the meter − working pressure at the appliance.
    Units: mbar.
    Range: both read at once, every appliance on full.
    Errors: about 0.2 mbar, from two gauges.
    Source: BS 6891: at most 1 mbar on natural gas (from training texts).
    """
    return at_meter - at_appliance

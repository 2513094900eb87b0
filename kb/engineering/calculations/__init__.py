"""Which calculations are there, so that one page and one command can show them all?"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from kb.engineering.calculation import Calculation
from kb.engineering.calculations import combustion, gas, heat, others, vessel, water

CALCULATIONS: Final[Mapping[str, Calculation]] = MappingProxyType(
    {each.name: each for subject in (water, vessel, gas, combustion, heat, others) for each in subject.ALL}
)
"""Every calculation by name, in the order of a handover record."""

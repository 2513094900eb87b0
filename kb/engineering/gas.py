"""How much heat goes into an appliance, told by its gas meter and a stopwatch?"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from kb.engineering.span import CannotWork, Span, within

CUBIC_FOOT: Final = 0.028316846592
"""One cubic foot in m³, exactly (the international foot)."""

BTU: Final = 1055.05585262
"""One British thermal unit of the International Table, in J."""

VOLUME: Final = Span(0.0005, 100, "m³")
FEET: Final = Span(0.02, 3500, "ft³")
SECONDS: Final = Span(10, 7200, "s")
TOLERANCE: Final = 0.05
"""How far a gas rate may lie from the plate (common practice; the maker's figure wins)."""


@dataclass(frozen=True, slots=True)
class Gas:
    """A fuel gas: its usual calorific value and the span of it, and gross over net.

    The value is in MJ/m³, gross, at 15 °C and 1013.25 mbar.
    """

    name: str
    gross: float
    span: Span
    over_net: float


GASES: Final[Mapping[str, Gas]] = MappingProxyType(
    {
        "natural-gas": Gas("natural gas", 39.2, Span(37, 43.5, "MJ/m³"), 1.11),
        "lpg": Gas("LPG (propane)", 95.65, Span(90, 102, "MJ/m³"), 1.087),
    }
)
"""The gases an appliance may burn.

Natural gas: 37.5 to 43.0 MJ/m³ is declared in Great Britain, and 39.2 is a usual day's figure; 1.11 is methane's ratio.
Propane: ISO 6976 gives pure propane 95.65 gross and 87.99 net as a real gas; trade tables print 93.1 to 95.8.
"""


def kw_gross(m3: float, seconds: float, mj_per_m3: float) -> float:
    """The heat input, gross, of gas that passed a meter.

    Formula: kW = m³ × calorific value × 1000 ÷ seconds.
    Units: volume in m³, time in s, calorific value in MJ/m³ gross, result in kW.
    Range: 0.0005 to 100 m³, 10 to 7200 s, 0.1 to 200 MJ/m³.
    Errors: a step of the meter's last digit in a minute is about 2 %.
    The gas's own pressure and temperature are not corrected for, which is 2 to 4 %.
    Source: physics.
    One minute on a metric meter follows technical bulletin 162 of the British register of gas engineers.
    """
    within("a calorific value", mj_per_m3, Span(0.1, 200, "MJ/m³"))
    return within("a gas volume", m3, VOLUME) * mj_per_m3 * 1000 / within("a time", seconds, SECONDS)


def net(gross: float, over_net: float) -> float:
    """The net figure of a gross one: without the heat that the water vapour holds.

    Formula: net = gross ÷ ratio.
    Units: any; the ratio is 1.11 for natural gas and 1.087 for propane.
    Range: ratios from 1 to 1.25.
    Errors: 0.2 % for British natural gas.
    Source: heats of combustion of ISO 6976: methane 891.51 over 802.69 kJ/mol, propane 2221.10 over 2043.37.
    """
    return gross / within("a ratio of gross to net", over_net, Span(1, 1.25, ""))


def cubic_metres(ft3: float) -> float:
    """The cubic metres of so many cubic feet, for an imperial meter.

    Formula: m³ = ft³ × 0.028316846592.
    Units: ft³ in, m³ out.
    Range: 0.02 to 3500 ft³.
    Errors: none.
    Source: the international foot, 0.3048 m exactly.
    """
    return within("a gas volume", ft3, FEET) * CUBIC_FOOT


def mj_per_m3(btu_per_ft3: float) -> float:
    """The calorific value in MJ/m³ of one in Btu/ft³.

    Formula: MJ/m³ = Btu/ft³ × 1055.056 ÷ 28 316.85.
    Units: Btu/ft³ in, MJ/m³ out; 1040 Btu/ft³ is 38.75 MJ/m³.
    Range: 3 to 5000 Btu/ft³.
    Errors: none of its own.
    Source: the Btu of the International Table and the international foot.
    """
    return within("a calorific value", btu_per_ft3, Span(3, 5000, "Btu/ft³")) * BTU / CUBIC_FOOT / 1e6


def gas(name: str) -> Gas:
    """The gas of a fuel's name.

    Raises CannotWork for oil and for what is no fuel.
    """
    if name not in GASES:
        raise CannotWork(f"one of {', '.join(GASES)}", name or "nothing", "Choose what the meter measures")
    return GASES[name]

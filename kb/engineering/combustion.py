"""What do an analyser's figures say: how clean is the flame, how much air does it get, and do its products condense?"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from kb.engineering.span import CannotWork, Span, figure, within
from kb.engineering.steam import saturation_pressure, saturation_temperature

OXYGEN: Final = 0.20946
"""The share of oxygen in dry air."""

ATMOSPHERE: Final = 1.01325
WATER_GRAMS: Final = 18.01528
"""The mass of a mole of water, in g."""

CO: Final = Span(0, 100_000, "ppm")
CO2: Final = Span(0.1, 15, "%")
O2: Final = Span(0, 20.9, "%")
LAMBDA: Final = Span(1, 10, "")
GROSS_KW: Final = Span(0.1, 1000, "kW gross")


@dataclass(frozen=True, slots=True)
class Fuel:
    """A fuel as one molecule: its carbon and hydrogen atoms, and its gross heat of combustion in kJ/mol."""

    name: str
    carbon: int
    hydrogen: int
    gross: float

    @property
    def air(self) -> float:
        """The moles of dry air that burn one mole exactly."""
        return (self.carbon + self.hydrogen / 4) / OXYGEN

    @property
    def dry(self) -> float:
        """The moles of dry products of one mole, burnt exactly."""
        return self.carbon + self.air * (1 - OXYGEN)

    @property
    def water(self) -> float:
        """The moles of water that one mole makes."""
        return self.hydrogen / 2


FUELS: Final[Mapping[str, Fuel]] = MappingProxyType(
    {
        "natural-gas": Fuel("natural gas (as methane)", 1, 4, 891.51),
        "lpg": Fuel("LPG (as propane)", 3, 8, 2221.10),
    }
)
"""The fuels, with the heats of combustion of ISO 6976 at 15 °C; real natural gas reaches up to 11.9 % CO₂."""


def ratio(co_ppm: float, co2_percent: float) -> float:
    """The share of carbon monoxide to carbon dioxide, the measure of a clean flame.

    Formula: ratio = CO ÷ (CO₂ × 10 000).
    Units: CO in ppm, CO₂ in %, both dry and as read.
    Range: CO 0 to 100 000 ppm, CO₂ 0.1 to 15 %.
    Errors: an analyser is good for about 10 ppm or 5 % of CO, and 0.3 % of CO₂.
    Source: the definition; 350 ppm at 8.75 % is 0.0040.
    """
    return within("a CO reading", co_ppm, CO) / (within("a CO₂ reading", co2_percent, CO2) * 10_000)


def co2_max(fuel: Fuel) -> float:
    """The highest CO₂ that dry products can show, burnt with exactly the air needed.

    Formula: CO₂max = C ÷ (C + air × 0.79054) × 100, with air = (C + H ÷ 4) ÷ 0.20946.
    Units: %.
    Range: fuels of carbon and hydrogen.
    Errors: methane 11.70 %, propane 13.72 %; British natural gas reads up to 0.2 % higher.
    Source: stoichiometry with dry air of 20.946 % oxygen.
    """
    return 100 * fuel.carbon / fuel.dry


def air_from_co2(fuel: Fuel, co2_percent: float) -> float:
    """The air a flame gets over what it needs (λ), from CO₂.

    Formula: λ = 1 + (C ÷ CO₂ − dry products) ÷ air, in moles for one mole of fuel.
    Units: CO₂ in % dry, λ as a number: 1.3 is 30 % too much.
    Range: CO₂ above 0.1 % and up to the fuel's highest; more is refused, since no air makes it.
    Errors: 0.1 % of CO₂ is about 0.012 of λ.
    Source: stoichiometry.
    """
    highest = co2_max(fuel)
    if within("a CO₂ reading", co2_percent, CO2) > highest + 1e-9:
        raise CannotWork(
            f"at most {figure(highest)} % CO₂ from {fuel.name}",
            f"{figure(co2_percent)} %",
            "Look at the fuel set on the analyser and at the figure",
        )
    return 1 + (100 * fuel.carbon / co2_percent - fuel.dry) / fuel.air


def co2_from_o2(fuel: Fuel, o2_percent: float) -> float:
    """The CO₂ that goes with a reading of oxygen.

    Formula: CO₂ = CO₂max × (20.946 − O₂) ÷ 20.946.
    Units: % dry.
    Range: O₂ 0 to 20.9 %.
    Errors: exact for dry gas; 0.2 % of O₂ is 0.11 % of CO₂.
    Source: stoichiometry.
    """
    return co2_max(fuel) * (1 - within("an O₂ reading", o2_percent, O2) / (100 * OXYGEN))


def dew_point(fuel: Fuel, air: float, humidity: float = 0.0) -> float:
    """The temperature below which the water in the products begins to condense.

    Formula: saturation temperature of the vapour's share of 1.01325 bar, the share being water ÷ all products in moles.
    Units: λ as a number, humidity as moles of vapour in a mole of dry air, result in °C.
    Range: λ from 1 to 10.
    Errors: dry air is taken unless told; air of 20 °C and 60 % adds about 1.3 K; the weather's pressure 0.5 K.
    Source: stoichiometry and IAPWS-IF97.
    """
    within("λ", air, LAMBDA)
    vapour = fuel.water + air * fuel.air * humidity
    return saturation_temperature(ATMOSPHERE * vapour / (vapour + _dry(fuel, air)))


def humidity_of(celsius: float, relative: float) -> float:
    """The moles of vapour in a mole of dry air.

    Formula: x = φ × p(saturation) ÷ (1.01325 − φ × p(saturation)).
    Units: temperature in °C, relative humidity φ from 0 to 1.
    Range: 0.01 to 60 °C.
    Errors: under 1 %.
    Source: the definition, with IAPWS-IF97.
    """
    wet = within("a relative humidity", relative, Span(0, 1, "")) * saturation_pressure(celsius)
    return wet / (ATMOSPHERE - wet)


def condensate_most(fuel: Fuel, gross_kw: float) -> float:
    """The most condensate an appliance can make: all the water that its flame forms.

    Formula: l/h = kW × 3600 × water × 18.015 ÷ 1 000 000 ÷ heat of combustion in MJ/mol.
    Units: input in kW gross, result in l/h.
    Range: 0.1 to 1000 kW.
    Errors: under 1 %; methane 0.146 l for each kWh gross, propane 0.117.
    Source: stoichiometry with the heats of combustion of ISO 6976.
    """
    moles_an_hour = within("a heat input", gross_kw, GROSS_KW) * 3600 / fuel.gross
    return moles_an_hour * fuel.water * WATER_GRAMS / 1000


def condensed(fuel: Fuel, air: float, celsius: float) -> float:
    """The share of the water that condenses when the products leave at a temperature.

    Formula: 1 − x × dry products ÷ water, with x = p(saturation) ÷ (1.01325 − p(saturation)).
    Units: λ as a number, temperature in °C, result as a share.
    Range: λ from 1 to 10, 0.01 to 110 °C; dry air; none condenses above the dew point.
    Errors: products leave some kelvins above the return, so the share at the return temperature is the best case.
    Source: stoichiometry and IAPWS-IF97.
    """
    pressure = saturation_pressure(celsius)
    if pressure >= ATMOSPHERE:
        return 0.0
    stays = pressure / (ATMOSPHERE - pressure) * _dry(fuel, within("λ", air, LAMBDA))
    return max(0.0, 1 - stays / fuel.water)


def fuel_of(name: str) -> Fuel:
    """The fuel of a name.

    Raises CannotWork.
    """
    if name not in FUELS:
        raise CannotWork(f"one of {', '.join(FUELS)}", name or "nothing", "Choose what the appliance burns")
    return FUELS[name]


def _dry(fuel: Fuel, air: float) -> float:
    return fuel.dry + (air - 1) * fuel.air

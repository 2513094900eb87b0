"""Combustion against `chemicals` (stoichiometry), CoolProp (saturation by IAPWS-95) and computed handbook values.

The values per excess air were also had from cantera 3.2's equilibrium, to four decimals.
"""

import pytest
from chemicals import combustion_stoichiometry
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as some

from kb.engineering import combustion
from kb.engineering.combustion import FUELS, Fuel
from kb.engineering.span import CannotWork

METHANE = FUELS["natural-gas"]
PROPANE = FUELS["lpg"]
BOTH = pytest.mark.parametrize("fuel", [METHANE, PROPANE], ids=["methane", "propane"])


def products(fuel: Fuel, air: float) -> dict[str, float]:
    """The moles of products of one mole of fuel, by the library's own balance."""
    balance = combustion_stoichiometry({"C": fuel.carbon, "H": fuel.hydrogen})
    oxygen = -balance["O2"]
    return {
        "CO2": balance["CO2"],
        "H2O": balance["H2O"],
        "O2": oxygen * (air - 1),
        "N2": oxygen * air * (1 - 0.20946) / 0.20946,
    }


def dry_percent(fuel: Fuel, air: float, gas: str) -> float:
    made = products(fuel, air)
    return 100 * made[gas] / (made["CO2"] + made["O2"] + made["N2"])


@BOTH
def test_the_highest_co2_is_that_of_the_balance(fuel: Fuel) -> None:
    assert combustion.co2_max(fuel) == pytest.approx(dry_percent(fuel, 1, "CO2"))


def test_the_highest_co2_is_the_handbooks() -> None:
    assert combustion.co2_max(METHANE) == pytest.approx(11.698, abs=1e-3)
    assert combustion.co2_max(PROPANE) == pytest.approx(13.717, abs=1e-3)


@BOTH
@pytest.mark.parametrize("air", [1, 1.1, 1.2, 1.3, 1.5, 2])
def test_the_air_is_told_from_either_gas(fuel: Fuel, air: float) -> None:
    co2 = dry_percent(fuel, air, "CO2")

    assert combustion.air_from_co2(fuel, co2) == pytest.approx(air)
    assert combustion.co2_from_o2(fuel, dry_percent(fuel, air, "O2")) == pytest.approx(co2, rel=1e-3)


@pytest.mark.parametrize(
    ("fuel", "co2", "excess"), [(METHANE, 9.0, 26.84), (METHANE, 8.7, 30.85), (PROPANE, 10, 34.05)]
)
def test_excess_air_as_cantera_has_it(fuel: Fuel, co2: float, excess: float) -> None:
    assert (combustion.air_from_co2(fuel, co2) - 1) * 100 == pytest.approx(excess, abs=0.01)


@BOTH
@pytest.mark.parametrize("air", [1, 1.2, 1.3, 1.5])
def test_the_dew_point_is_that_of_iapws_95(fuel: Fuel, air: float) -> None:
    made = products(fuel, air)
    vapour = 101_325 * made["H2O"] / sum(made.values())

    assert combustion.dew_point(fuel, air) == pytest.approx(
        PropsSI("T", "P", vapour, "Q", 0, "Water") - 273.15, abs=0.02
    )


def test_the_dew_point_with_moist_air() -> None:
    # Computed with IF97 saturation for air of 20 °C and 60 % relative humidity.
    moist = combustion.humidity_of(20, 0.6)

    assert combustion.dew_point(METHANE, 1.3, moist) == pytest.approx(55.59, abs=0.02)
    assert combustion.dew_point(PROPANE, 1.3, moist) == pytest.approx(51.70, abs=0.02)


@BOTH
def test_nothing_condenses_at_the_dew_point_and_all_but_a_little_when_cold(fuel: Fuel) -> None:
    dew = combustion.dew_point(fuel, 1.3)

    assert combustion.condensed(fuel, 1.3, dew) == pytest.approx(0, abs=1e-6)
    assert combustion.condensed(fuel, 1.3, dew + 5) == 0
    assert combustion.condensed(fuel, 1.3, 105) == 0
    assert combustion.condensed(fuel, 1.3, 5) > 0.9


@given(some.floats(1, 3), some.floats(1, 54))
def test_what_stays_in_the_products_saturates_them(air: float, celsius: float) -> None:
    share = combustion.condensed(METHANE, air, celsius)
    made = products(METHANE, air)
    left = made["H2O"] * (1 - share)
    vapour = 101_325 * left / (sum(made.values()) - made["H2O"] + left)

    if share > 0:
        assert vapour == pytest.approx(PropsSI("P", "T", celsius + 273.15, "Q", 0, "Water"), rel=1e-3)


def test_a_kilowatt_hour_makes_so_much_water() -> None:
    # Two moles of 18.015 g for 891.51 kJ, four for 2221.10 kJ (ISO 6976).
    assert combustion.condensate_most(METHANE, 1) == pytest.approx(0.1455, abs=1e-4)
    assert combustion.condensate_most(PROPANE, 1) == pytest.approx(0.1168, abs=1e-4)


def test_the_ratio_of_the_commissioning_limit() -> None:
    # The British trade bodies' commissioning limit: 350 ppm, and 0.0040, which meet at 8.75 % CO₂.
    assert combustion.ratio(350, 8.75) == pytest.approx(0.0040)


def test_more_co2_than_the_fuel_can_make_is_refused() -> None:
    with pytest.raises(CannotWork, match=r"at most 11\.7 % CO₂ from natural gas .* found 12\.5 %"):
        combustion.air_from_co2(METHANE, 12.5)


def test_an_unknown_fuel_is_refused() -> None:
    with pytest.raises(CannotWork, match="found oil"):
        combustion.fuel_of("oil")

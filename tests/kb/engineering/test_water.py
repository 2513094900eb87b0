"""Density and growth against IAPWS-95 (CoolProp 8) and IAPWS-IF97 (iapws 1.5), the head against hydrostatics."""

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as some
from iapws import IAPWS97

from kb.engineering.span import CannotWork
from kb.engineering.water import density, expansion, head, metres_of

WARM = range(5, 100, 5)


@pytest.mark.parametrize("celsius", WARM)
def test_density_is_that_of_iapws_95(celsius: int) -> None:
    reference = PropsSI("D", "T", celsius + 273.15, "P", 101_325, "Water")

    assert density(celsius) == pytest.approx(reference, abs=0.02)


@pytest.mark.parametrize("celsius", WARM)
def test_density_is_that_of_if97(celsius: int) -> None:
    assert density(celsius) == pytest.approx(IAPWS97(T=celsius + 273.15, P=0.101325).rho, abs=0.02)


@pytest.mark.parametrize("hot", range(15, 100, 5))
def test_growth_is_that_of_iapws_95_under_the_pressure_of_a_system(hot: int) -> None:
    def reference(celsius: float) -> float:
        return float(PropsSI("D", "T", celsius + 273.15, "P", 200_000, "Water"))

    assert expansion(10, hot) == pytest.approx(reference(10) / reference(hot) - 1, abs=2e-5)


@pytest.mark.parametrize("hot", range(15, 100, 5))
def test_growth_is_that_of_if97_under_the_pressure_of_a_system(hot: int) -> None:
    cold = IAPWS97(T=283.15, P=0.2).rho

    assert expansion(10, hot) == pytest.approx(cold / IAPWS97(T=hot + 273.15, P=0.2).rho - 1, abs=2e-5)


def test_water_is_heaviest_at_four_degrees() -> None:
    assert max(range(101), key=density) == 4


def test_ten_metres_of_cold_water_press_with_almost_a_bar() -> None:
    # 9.80665 kPa a metre at 1000 kg/m³: a bar is 10.197 m (metre of water, ISO 80000-4).
    assert head(10, 4) == pytest.approx(0.980665, rel=5e-5)
    assert metres_of(1, 4) == pytest.approx(10.197, rel=5e-5)
    assert head(1, 80) == pytest.approx(0.0953, abs=5e-5)


@given(some.floats(0, 100), some.floats(0, 100))
def test_a_height_and_its_pressure_go_there_and_back(metres: float, celsius: float) -> None:
    assert metres_of(head(metres, celsius), celsius) == pytest.approx(metres)


@given(some.floats(0, 100), some.floats(0, 100))
def test_growing_and_shrinking_again_end_where_they_began(cold: float, hot: float) -> None:
    assert (1 + expansion(cold, hot)) * (1 + expansion(hot, cold)) == pytest.approx(1)


@pytest.mark.parametrize("celsius", [-0.1, 100.1, float("nan"), float("inf")])
def test_what_is_no_water_temperature_is_refused(celsius: float) -> None:
    with pytest.raises(CannotWork, match="Expected a water temperature of 0 to 100 °C, found"):
        density(celsius)

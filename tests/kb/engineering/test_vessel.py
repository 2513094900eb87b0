"""The vessel against Boyle's law as EN 12828 writes it, and against examples worked with IAPWS-95 densities."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as some

from kb.engineering import vessel
from kb.engineering.span import CannotWork

CHARGES = some.floats(0, 1.5)
SIZES = some.floats(4, 50)

# Worked with IAPWS-95 densities (CoolProp 8) and the air at 1 bar, water from 10 to 80 °C, bar by gauge.
# The formula is Boyle's: (charge + 1) × size ÷ gas left − 1.
EXAMPLES = [
    (1.0, 0.75, 8, 100, 2.392),
    (1.5, 0.75, 8, 100, 4.133),
    (1.0, 0.30, 8, 100, 3.468),
    (1.0, 0.00, 8, 100, 6.095),
    (1.0, 1.00, 8, 100, 2.120),
    (1.0, 0.75, 8, 60, 1.653),
    (1.0, 0.75, 8, 150, 4.202),
    (1.2, 1.00, 12, 120, 2.216),
]


@pytest.mark.parametrize(("fill", "charge", "size", "system", "hot"), EXAMPLES)
def test_the_pressure_when_hot(fill: float, charge: float, size: float, system: float, hot: float) -> None:
    assert vessel.hot_pressure(fill, charge, size, vessel.growth(system, 10, 80)) == pytest.approx(hot, rel=2e-3)


def test_a_vessel_holds_the_litres_that_boyle_says() -> None:
    # 8 l at 0.75 bar: 1.0 l at 1.0 bar, and 1.4 l between 1.0 and 1.5 bar.
    assert vessel.held(8, 0.75, 1.0) == pytest.approx(1.0)
    assert vessel.held(8, 0.75, 1.5) - vessel.held(8, 0.75, 1.0) == pytest.approx(1.4)


@pytest.mark.parametrize(("charge", "least"), [(0.5, 5.03), (0.75, 5.75), (1.0, 6.70), (1.5, 10.05)])
def test_the_smallest_vessel_for_100_litres(charge: float, least: float) -> None:
    # EN 12828 (from memory): V = Ve × (pe + 1) ÷ (pe − p0), without reserve, Ve from IAPWS-95.
    assert vessel.needed(vessel.growth(100, 10, 80), charge, 2.5) == pytest.approx(least, rel=3e-3)


def test_the_highest_fill_is_that_of_en_12828() -> None:
    # EN 12828 (from memory): (pe + 1) ÷ (1 + Ve(pe + 1) ÷ (VN(p0 + 1))) − 1.
    grown = vessel.growth(60, 10, 80)
    standard = 3.5 / (1 + grown * 3.5 / (8 * 1.75)) - 1

    assert vessel.highest_fill(2.5, 0.75, 8, grown) == pytest.approx(standard)
    assert standard == pytest.approx(1.446, abs=1e-3)


@given(some.floats(0, 3), CHARGES, SIZES, some.floats(0, 3))
def test_from_the_cold_fill_to_hot_and_back(above: float, charge: float, size: float, grown: float) -> None:
    fill = charge + above
    assume(vessel.held(size, charge, fill) + grown < 0.7 * size)

    hot = vessel.hot_pressure(fill, charge, size, grown)

    assert vessel.highest_fill(hot, charge, size, grown) == pytest.approx(fill, abs=1e-6)
    assert vessel.held(size, charge, hot) - vessel.held(size, charge, fill) == pytest.approx(grown, abs=1e-6)


@given(some.floats(0.5, 20), CHARGES, some.floats(0.2, 3))
def test_the_smallest_vessel_ends_at_the_pressure_it_was_sized_for(litres: float, charge: float, above: float) -> None:
    size = vessel.needed(litres, charge, charge + above)
    assume(size >= vessel.VESSEL.low)

    assert vessel.hot_pressure(charge, charge, size, litres) == pytest.approx(charge + above)


@given(CHARGES, SIZES)
def test_a_fill_below_the_charge_finds_the_vessel_empty(charge: float, size: float) -> None:
    below = charge / 2

    assert vessel.held(size, charge, below) == 0
    assert vessel.hot_pressure(below, charge, size, 1) == pytest.approx(vessel.hot_pressure(charge, charge, size, 1))


def test_a_vessel_without_room_is_refused_and_says_what_would_happen() -> None:
    with pytest.raises(CannotWork, match="the relief valve would lift"):
        vessel.hot_pressure(1.5, 0.75, 8, 6)


def test_no_fill_is_low_enough_for_a_vessel_that_is_too_small() -> None:
    with pytest.raises(CannotWork, match="too small"):
        vessel.highest_fill(2.5, 0.75, 8, 4.5)


def test_a_highest_pressure_below_the_charge_is_refused() -> None:
    with pytest.raises(CannotWork, match="swapped"):
        vessel.needed(3, 2.5, 1.0)


def test_hot_below_cold_is_refused() -> None:
    with pytest.raises(CannotWork, match="swapped"):
        vessel.growth(100, 80, 10)


def test_the_reserve_of_a_small_and_of_a_large_vessel() -> None:
    # EN 12828 (from memory): 20 % of a vessel up to 15 l, else 0.5 % of the system, at least 3 l.
    assert vessel.reserve(100, 8) == pytest.approx(1.6)
    assert vessel.reserve(100, 18) == 3
    assert vessel.reserve(1000, 80) == 5

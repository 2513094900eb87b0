"""The analyser's figures.

350 ppm and 0.0040 are the British trade bodies' commissioning limits where the maker gives none.
Technical bulletin 143 of the register of gas engineers has them.
0.0080, 20.6 % and 0.2 % are common practice.
"""

import pytest

from kb.engineering.record import Readings
from kb.engineering.remark import Level
from tests.kb.engineering.records import asked, levels, only, propane, record, said

RATES = pytest.mark.parametrize("rate", ["high", "low"])


def gases(rate: str, co: float, co2: float, **others: float) -> Readings:
    return only("fuel", **{f"co_{rate}_ppm": co, f"co2_{rate}": co2}, **others)


@RATES
def test_the_limits_where_the_maker_gives_none(rate: str) -> None:
    assert asked(gases(rate, 350, 8.75)) == set()
    assert levels(gases(rate, 351, 9.5))["carbon-monoxide"] is Level.DANGER
    assert levels(gases(rate, 345, 8.6))["ratio"] is Level.DANGER


@RATES
def test_the_makers_limits_win(rate: str) -> None:
    assert asked(gases(rate, 500, 9, maker_co_ppm=600, maker_ratio=0.006)) == set()
    assert asked(gases(rate, 250, 9, maker_co_ppm=200)) == {"carbon-monoxide"}
    assert asked(gases(rate, 250, 9, maker_ratio=0.002)) == {"ratio"}


def test_no_makers_figure_lifts_the_action_level() -> None:
    remark = said(gases("high", 800, 9, maker_co_ppm=2000, maker_ratio=0.02), "ratio")

    assert remark.level is Level.DANGER
    assert "0.0080 is the action level" in remark.text


def test_no_makers_figure_lifts_carbon_monoxide_above_the_action_level() -> None:
    # 800 ppm is the ratio of 0.0080 at 10 % CO₂.
    assert asked(only(co_high_ppm=800, maker_co_ppm=2000)) == set()
    assert levels(only(co_high_ppm=801, maker_co_ppm=2000)) == {"carbon-monoxide": Level.DANGER}


def test_the_working_of_the_ratio() -> None:
    assert said(gases("high", 350, 8.75), "ratio").working == ("350 ppm ÷ (8.75 % × 10 000) = 0.0040",)


@RATES
def test_a_ratio_that_does_not_come_from_the_two_gases(rate: str) -> None:
    text = said(gases(rate, 80, 9, **{f"ratio_{rate}": 0.00009}), "ratio-mismatch").text

    assert text.endswith("but the two gases give 0.0009. Is a decimal point in the wrong place? 0.0009 would fit.")


@pytest.mark.parametrize("noted", [0.0008, 0.0009, 0.001])
def test_a_rounded_ratio_is_the_ratio(noted: float) -> None:
    assert asked(gases("high", 80, 9, ratio_high=noted)) == set()


def test_a_ratio_alone_is_held_to_the_limit() -> None:
    assert levels(only(ratio_high=0.0041)) == {"ratio-written": Level.DANGER}
    assert levels(only(ratio_high=0.0040)) == {}


@pytest.mark.parametrize(
    ("readings", "asks"),
    [
        (only("fuel", co2_high=8.4), True),
        (only("fuel", co2_high=8.5), False),
        (only("fuel", co2_high=9.8), False),
        (only("fuel", co2_high=9.9), True),
        (only("fuel", co2_low=7.8), False),
        (only("fuel", co2_low=7.4), True),
        (only(fuel="lpg", co2_high=10.5), False),
        (only(fuel="lpg", co2_high=9.4), True),
        (only(co2_high=5), False),
    ],
)
def test_carbon_dioxide_by_fuel_and_rate(readings: Readings, asks: bool) -> None:
    assert ("carbon-dioxide" in asked(readings)) is asks


@pytest.mark.parametrize(
    ("readings", "guess"),
    [
        (only("fuel", co2_high=0.9), "9 % would fit."),
        (only("fuel", co2_high=10.5), "That is usual for LPG (propane). Is the appliance set up for this gas?"),
        (only("fuel", co2_high=12.5), "No flame of natural gas makes more than about 11.7 %."),
        (only(fuel="lpg", co2_high=9), "Was it settled, with the case on?"),
    ],
)
def test_carbon_dioxide_is_asked_about_with_a_guess(readings: Readings, guess: str) -> None:
    assert guess in said(readings, "carbon-dioxide").text


def test_monoxide_and_dioxide_swapped() -> None:
    assert asked(gases("high", 9, 80)) == {"co-swapped"}


@pytest.mark.parametrize("figures", [{"intake_o2": 20.5}, {"intake_co2": 0.3}, {"intake_o2": 0.0}, {"intake_co2": 40}])
def test_products_at_the_air_intake_are_a_danger(figures: dict[str, float]) -> None:
    assert levels(only(**figures)) == {"air-intake": Level.DANGER}


def test_fresh_air_is_fine_and_too_much_oxygen_is_the_analyser() -> None:
    assert asked(only(intake_o2=20.6, intake_co2=0.2)) == set()
    assert asked(only(intake_o2=21.3)) == {"analyser"}


def test_propane_that_fits_asks_nothing() -> None:
    assert asked(propane()) == asked(record()) == set()

"""Fill, height and vessel.

Common practice: the charge is the head and 0.2 to 0.3 bar, the fill lies above it, 0.5 bar are left to the valve.
"""

import pytest

from kb.engineering.record import Readings
from kb.engineering.remark import Level
from tests.kb.engineering.records import asked, levels, only, record, said

VESSEL = {"charge_bar": 0.75, "vessel_l": 8}


@pytest.mark.parametrize(
    ("bar", "level"),
    [(0.7, Level.QUESTION), (0.8, None), (1.8, None), (1.9, Level.QUESTION), (2.5, Level.DANGER), (9, Level.DANGER)],
)
def test_the_cold_fill(bar: float, level: Level | None) -> None:
    assert levels(only(cold_bar=bar)).get("cold-fill") is level


def test_a_lower_relief_valve_moves_the_danger_and_a_higher_one_does_not() -> None:
    assert said(only(cold_bar=2.0, relief_bar=2.5), "cold-fill").level is Level.DANGER
    assert said(only(cold_bar=2.6, relief_bar=6), "cold-fill").level is Level.DANGER


def test_another_relief_valve_is_asked_about() -> None:
    assert asked(only(relief_bar=6)) == {"relief-valve"}
    assert asked(only(relief_bar=3)) == set()


def test_a_slipped_point_in_the_fill_is_guessed() -> None:
    assert said(only(cold_bar=12), "cold-fill").text.endswith("1.2 bar would fit.")
    assert "1.2 bar would fit." in said(only(cold_bar=0.12), "cold-fill").text


def test_a_fill_too_low_for_the_height() -> None:
    # Ten metres of water are 0.98 bar.
    assert said(only(cold_bar=1.0, static_m=10), "fill-height").level is Level.QUESTION
    assert said(only(cold_bar=1.2, static_m=10), "fill-height").level is Level.FINE


def test_a_charge_too_low_for_the_height() -> None:
    assert said(only(charge_bar=0.75, static_m=7), "charge-height").level is Level.QUESTION
    assert said(only(charge_bar=0.75, static_m=5.5), "charge-height").level is Level.FINE


def test_a_fill_not_above_the_charge() -> None:
    assert "swapped" in said(only(cold_bar=0.75, charge_bar=1.2), "fill-charge").text


# The vessel's worked examples are Boyle's with IAPWS-95 densities, as in test_vessel.py.
@pytest.mark.parametrize(
    ("figures", "level", "text"),
    [
        ({"cold_bar": 1.0, "system_l": 100}, Level.FINE, "about 2.4 bar"),
        ({"cold_bar": 1.1, "system_l": 100}, Level.QUESTION, "about 2.7 bar"),
        ({"cold_bar": 1.0, "system_l": 150}, Level.DANGER, "about 4.2 bar"),
        ({"cold_bar": 1.5, "system_l": 100}, Level.DANGER, "about 4.1 bar"),
        ({"cold_bar": 1.0, "system_l": 400}, Level.DANGER, "cannot take what the water grows by"),
    ],
)
def test_the_pressure_to_expect_when_hot(figures: dict[str, float], level: Level, text: str) -> None:
    remark = said(only(**VESSEL, **figures), "hot-pressure")

    assert remark.level is level
    assert text in remark.text
    assert remark.working


def test_a_valve_that_lifts_only_above_todays_setting_is_a_question() -> None:
    figures = {**VESSEL, "cold_bar": 1.2, "system_l": 110}

    assert said(only(**figures), "hot-pressure").level is Level.DANGER
    assert said(only(**figures, flow_c=60), "hot-pressure").level is Level.QUESTION
    assert said(only(**figures, flow_c=80), "hot-pressure").level is Level.DANGER


def test_a_gauge_read_hot_below_the_valve_speaks_against_what_was_foretold() -> None:
    figures = {**VESSEL, "cold_bar": 1.0, "system_l": 150}

    assert said(only(**figures, hot_bar=1.9), "hot-pressure").level is Level.QUESTION
    assert said(only(**figures, hot_bar=3.1), "hot-pressure").level is Level.DANGER


@pytest.mark.parametrize("lacking", ["cold_bar", "charge_bar", "vessel_l", "system_l"])
def test_with_one_figure_lacking_no_pressure_is_foretold(lacking: str) -> None:
    assert "hot-pressure" not in levels(record(**{lacking: None}))


@pytest.mark.parametrize(
    ("readings", "checks"),
    [
        (only(hot_bar=2.4), {}),
        (only(hot_bar=2.5), {"hot-reading": Level.QUESTION}),
        (only(hot_bar=3.0), {"hot-reading": Level.DANGER}),
        (only(cold_bar=1.2, hot_bar=1.9), {"swing": Level.FINE}),
        (only(cold_bar=1.2, hot_bar=2.0), {"swing": Level.QUESTION}),
        (only(cold_bar=1.5, hot_bar=1.2), {"swing": Level.QUESTION}),
    ],
)
def test_the_reading_when_hot(readings: Readings, checks: dict[str, Level]) -> None:
    assert levels(readings) == checks


def test_a_reading_far_above_what_the_vessel_lets_expect() -> None:
    assert "about 1.6 was to be expected" in said(record(hot_bar=2.3, flow_c=55, return_c=42), "hot-expected").text
    assert "hot-expected" not in asked(record(hot_bar=2.3, flow_c=5, return_c=3))

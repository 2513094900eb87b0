"""A whole record: silent when it fits, never failing, never silent about a danger, only about what is there."""

from dataclasses import fields, replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from kb.engineering.plausible import questions, remarks
from kb.engineering.record import BOUNDS, Readings
from kb.engineering.remark import MAKE_SAFE, Level
from tests.kb.engineering.records import FIGURES, GOOD, NOTHING, asked, levels, propane, record, said

ANY = some.one_of(some.none(), some.floats(), some.floats(-10, 150), some.sampled_from([0.0, 1e-9, -1.0, 1e300]))
LIKELY = {
    name: some.one_of(some.none(), some.floats(known.possible.low, known.possible.high))
    for name, known in BOUNDS.items()
}
KINDS = {
    "fuel": some.sampled_from([None, "natural-gas", "lpg", "oil", "hay"]),
    "meter": some.sampled_from(["metric", "imperial", "?"]),
}
WILD = some.builds(Readings, **KINDS, **dict.fromkeys(FIGURES, ANY))
POSSIBLE = some.builds(Readings, **KINDS, **LIKELY)


@pytest.mark.parametrize("readings", [GOOD, propane()], ids=["natural gas", "propane"])
def test_a_record_that_fits_asks_nothing_and_shows_its_working(readings: Readings) -> None:
    assert questions(readings) == ()
    assert all(remark.working for remark in remarks(readings))
    assert levels(readings).keys() == {
        "plate", "fill-height", "charge-height", "fill-charge", "hot-pressure", "swing", "gas-drop", "gas-rate",
        "ratio", "hot-water", "flow-return", "heating", "condenses", "flue-length",
    }  # fmt: skip


def test_an_empty_record_says_nothing() -> None:
    assert remarks(NOTHING) == ()


@given(some.sets(some.sampled_from(FIGURES)))
def test_with_figures_lacking_a_record_that_fits_asks_at_most_what_a_bend_counts(lacking: set[str]) -> None:
    part = replace(GOOD, **dict.fromkeys(lacking))

    assert asked(part) <= {"flue-bends"}


@settings(max_examples=300, deadline=None)
@given(some.one_of(WILD, POSSIBLE))
def test_no_figures_make_it_fail_and_every_danger_says_stop(readings: Readings) -> None:
    for remark in remarks(readings):
        assert remark.text
        assert remark.figures
        assert all(getattr(readings, name) is not None for name in remark.figures)
        assert (MAKE_SAFE in remark.text) == (remark.level is Level.DANGER)


@settings(deadline=None, max_examples=50)
@given(POSSIBLE)
def test_dangers_come_first(readings: Readings) -> None:
    order = [remark.level for remark in remarks(readings)]

    assert order == sorted(order, key=[Level.DANGER, Level.QUESTION, Level.FINE].index)
    assert questions(readings) == tuple(remark for remark in remarks(readings) if remark.level is not Level.FINE)


@settings(deadline=None, max_examples=50)
@given(POSSIBLE, some.floats(801, 1e9))
def test_carbon_monoxide_is_a_danger_whatever_else_is_written(readings: Readings, co: float) -> None:
    worse = replace(readings, co_high_ppm=co)

    assert levels(worse)["carbon-monoxide"] is Level.DANGER


@settings(deadline=None, max_examples=50)
@given(POSSIBLE, some.floats(0.0081, 1e6))
def test_a_ratio_over_the_action_level_is_a_danger_whatever_the_maker_allows(readings: Readings, ratio: float) -> None:
    assert levels(replace(readings, ratio_low=ratio))["ratio-written"] is Level.DANGER


@settings(deadline=None, max_examples=50)
@given(POSSIBLE, some.floats(2.5, 1e6))
def test_a_fill_at_the_relief_valve_is_a_danger(readings: Readings, bar: float) -> None:
    assert levels(replace(readings, cold_bar=bar))["cold-fill"] is Level.DANGER


def test_two_deliberate_mistakes_are_caught_with_a_guess() -> None:
    wrong = record(gas_volume=0.45, cold_in_c=45, hot_out_c=10)

    assert asked(wrong) == {"gas-rate", "tap-swapped"}
    assert said(wrong, "gas-rate").text.endswith("Is a decimal point in the wrong place? 0.045 m³ would fit.")
    assert said(wrong, "tap-swapped").text.endswith("Are the two swapped?")


@pytest.mark.parametrize("name", FIGURES)
def test_a_figure_that_cannot_be_is_asked_about(name: str) -> None:
    beyond = record(**{name: BOUNDS[name].possible.high * 10 + 1})

    assert any(name in remark.figures for remark in questions(beyond))


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_what_is_no_number_is_asked_about(value: float) -> None:
    assert said(record(cold_bar=value), "possible").text == "The cold fill is not a number. Write it again."


def test_a_guess_at_a_figure_that_cannot_be() -> None:
    assert said(record(co2_high=90), "possible").text == (
        "The CO₂ at high rate is written as 90 %. It can only be 0.1 to 15 %. "
        "Is a decimal point in the wrong place? 9 % would fit."
    )


def test_a_danger_takes_the_place_of_the_plain_question() -> None:
    assert {remark.check for remark in questions(record(cold_bar=12))} == {"cold-fill"}


def test_every_figure_has_bounds_and_what_is_usual_is_possible() -> None:
    assert BOUNDS.keys() == {each.name for each in fields(Readings)} - {"fuel", "meter"}
    for known in BOUNDS.values():
        assert known.usual.low in known.possible
        assert known.usual.high in known.possible

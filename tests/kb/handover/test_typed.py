from datetime import date

import pytest

from kb.handover.typed import read
from tests.kb.handover.records import FORM


def meaning(field: str, text: str):
    value = read(FORM.by_id[field], text)
    return value and (value.meaning, value.problem is None)


@pytest.mark.parametrize("text", ["1.2", "1,2", " 1.2 ", "1.2 bar", "1,2bar", "1.20 BAR"])
def test_a_figure_is_read_however_it_is_written(text: str) -> None:
    assert meaning("cold-bar", text) == (1.2, True)


@pytest.mark.parametrize(
    ("field", "text", "figure"),
    [
        ("dhw-lpm", "9.8 l/min", 9.8),
        ("dhw-lpm", "9.8 litres a minute", 9.8),
        ("gas-s", "60s", 60),
        ("flow-c", "60 °C", 60),
        ("co2-high", "9,1 %", 9.1),
        ("gas-m3", "0,045 m³", 0.045),
        ("drop-mbar", "−0.2", -0.2),
        ("standing-mbar", ".5", 0.5),
    ],
)
def test_its_unit_may_stand_behind_it(field: str, text: str, figure: float) -> None:
    assert meaning(field, text) == (figure, True)


@pytest.mark.parametrize("text", ["abc", "1.2.3", "1 2", "--1", "1.2 kW", "½", "٣", "1e3", "1,200"])
def test_what_is_no_figure_is_told_and_kept_as_it_was_typed(text: str) -> None:
    value = read(FORM.by_id["cold-bar"], text)
    assert value is not None
    assert (value.meaning, value.text) == (None, text)
    told = str(value.problem)
    assert told.startswith("Expected ")
    assert f"found “{text}”" in told


def test_a_figure_beyond_what_can_be_is_told_and_still_means_something() -> None:
    value = read(FORM.by_id["cold-bar"], "12")
    assert value is not None
    assert value.meaning == 12
    assert str(value.problem) == "Expected 0 to 6 bar, found “12”. Read it again and look at the point and the unit."


def test_nothing_typed_means_nothing() -> None:
    assert read(FORM.by_id["cold-bar"], "  ") is None


def test_a_choice_is_one_of_its_options() -> None:
    assert meaning("flue", "open") == ("open", True)
    assert meaning("flue", "sideways") == (None, False)


def test_ticks_come_in_their_own_order() -> None:
    assert meaning("did", "reset gauge") == (("gauge", "reset"), True)
    assert meaning("did", "gauge juggling") == (None, False)


def test_a_day_is_a_day() -> None:
    assert meaning("fitted", "2026-02-28") == (date(2026, 2, 28), True)
    assert meaning("fitted", "2026-02-30") == (None, False)


def test_words_have_a_length_and_those_of_the_card_no_hidden_signs() -> None:
    assert meaning("inhibitor", " X, 1 l ") == ("X, 1 l", True)
    assert meaning("switch-place", "x" * 61) == ("x" * 61, False)
    assert meaning("switch-place", "left\u202eright") == (None, False)

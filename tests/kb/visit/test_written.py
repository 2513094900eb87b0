import pytest

from kb.visit.form import slug
from kb.visit.written import minutes
from tests.kb.visit.building import PLAIN, form, say


def test_the_likeliest_cause_stands_first_and_the_two_that_are_no_causes_last() -> None:
    assert list(form().by_id["cause"].options.values()) == [
        "The pump", "The board", "No fault, advice given", "Something else"
    ]  # fmt: skip


def test_parts_are_those_the_causes_ask_for_each_once() -> None:
    assert list(form().by_id["parts-used"].options.values()) == ["pump", "gaskets", "board", "meter"]


@pytest.mark.parametrize(
    ("arrived", "left", "found"),
    [("09:10", "09:55", 45), ("23:50", "00:20", 30), ("09:10", "", None), ("25:00", "09:00", None)],
)
def test_minutes_run_from_arriving_to_leaving(arrived: str, left: str, found: int | None) -> None:
    assert minutes(say(PLAIN, arrived=arrived, left=left)) == found


def test_an_answer_to_a_question_that_is_no_longer_asked_counts_for_nothing() -> None:
    assert say(PLAIN, cause_words="A mouse").words("cause-words") == ""
    assert say(PLAIN, cause="other", cause_words="A mouse").words("cause-words") == "A mouse"


def test_an_option_stands_for_words_without_spaces() -> None:
    assert slug("Fan, air or flue not proved") == "fan-air-or-flue-not-proved"

from datetime import UTC, datetime

import pytest

from kb.appointment import AGAIN, OFF, REASONS, NotMade, Unfit, kept, leave, left, read_left

NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)


@pytest.mark.parametrize("reason", list(REASONS))
def test_a_visit_is_called_off_for_a_reason(reason: str) -> None:
    assert leave(OFF, reason, " rang  ", grave=False) == NotMade(OFF, reason, "rang")


@pytest.mark.parametrize(
    ("what", "reason"), [(OFF, ""), (OFF, "bored"), (AGAIN, "works"), ("maybe", "nobody"), ("", "")]
)
def test_without_a_reason_of_ours_it_stands(what: str, reason: str) -> None:
    assert isinstance(leave(what, reason, "many words of it", grave=False), Unfit)


@pytest.mark.parametrize("words", ["", "no", "nobody in", "  "])
def test_what_may_be_about_danger_is_not_called_off_without_some_words(words: str) -> None:
    found = leave(OFF, "nobody", words, grave=True)
    assert isinstance(found, Unfit)
    assert "Write in a few words who was tried" in str(found)


def test_with_words_it_is_and_another_time_needs_none() -> None:
    assert leave(OFF, "works", "landlord rang, it heats", grave=True) == NotMade(
        OFF, "works", "landlord rang, it heats"
    )
    assert leave(AGAIN, "nobody", "", grave=True) == NotMade(AGAIN, "nobody")


def test_it_is_said_in_words() -> None:
    assert left(NotMade(OFF, "nobody", "Rang twice.")) == "Called off: nobody was in. Rang twice."
    assert left(NotMade(AGAIN, "nobody")) == "Nobody was in: another time is to be agreed."


def test_an_event_keeps_it_whole_and_one_that_says_nothing_usable_is_none() -> None:
    turn = NotMade(OFF, "works", "it heats", "Robin", NOON)
    assert read_left(kept(turn), "Robin", NOON) == turn
    assert read_left({"what": OFF}) is None

from datetime import timedelta

import pytest

from kb.article import Pace
from kb.desk.danger import Because, agenda, due_again, questions
from kb.desk.events import Did
from tests.kb.desk.calling import BEGAN, Told, books, real

BOOKS, REAL = books(), real()
TITLES = [step.title for step in questions(REAL)]


def titles(steps) -> list[str]:
    return [step.title for step in steps]


# The order is that of published emergency practice: life, explosion, poison, fire, shock, burning, scald, unsafe.
def test_the_questions_come_one_at_a_time_in_their_order() -> None:
    told = Told()
    for title in TITLES:
        assert agenda(REAL, told.events).next.title == title
        told.did(Did.ASKED, step=agenda(REAL, told.events).next.anchor, answer="no")
    assert agenda(REAL, told.events).clear


def test_one_no_answers_one_question() -> None:
    told = Told().asked(REAL, "no")
    told.events.append(told.events[0])
    assert len(agenda(REAL, told.events).answered) == 1
    assert agenda(REAL, told.events).next.title == TITLES[1]


@pytest.mark.parametrize("answer", ["none", "", "no no no"])
def test_anything_but_a_plain_answer_is_none(answer: str) -> None:
    assert agenda(REAL, Told().asked(REAL, answer).events).answered == ()


@pytest.mark.parametrize("said", ["yes", "not-sure"])
@pytest.mark.parametrize("place", range(8))
def test_the_first_yes_or_doubt_ends_the_path(place: int, said: str) -> None:
    told = Told().asked(REAL, *["no"] * place, said)
    now = agenda(REAL, told.events)
    assert now.end is not None
    assert now.next is None
    assert now.end.pace in (Pace.LEAVE, Pace.MAKE_SAFE, Pace.TODAY)
    assert agenda(REAL, told.asked(REAL, *["no"] * 8).events).end is now.end


def test_the_time_of_each_answer_is_kept() -> None:
    now = agenda(REAL, Told().clear(REAL).events)
    assert [asked.at - BEGAN for asked in now.answered] == [timedelta(seconds=10 * each) for each in range(8)]


def test_words_of_danger_put_their_own_question_in_front() -> None:
    told = Told().clear(REAL).did(Did.WORDS, words="the alarm chirped last night", danger="carbon-monoxide")
    now = agenda(REAL, told.events)
    assert titles(now.waiting) == [TITLES[2]]
    assert (now.because, now.words) == (Because.WORDS, "the alarm chirped last night")
    told.did(Did.ASKED, step=now.next.anchor, answer="yes")
    assert agenda(REAL, told.events).end.emergency == "carbon-monoxide"


def test_a_danger_without_a_question_of_its_own_asks_all_that_make_safe() -> None:
    told = Told().clear(REAL).did(Did.NOTED, words="it gave me a buzz", danger="electric")
    assert titles(agenda(REAL, told.events).waiting) == TITLES[4:7]


def test_words_during_the_first_questions_change_nothing_in_them() -> None:
    told = Told().asked(REAL, "no", "no").did(Did.WORDS, words="gas", danger="gas-smell")
    assert titles(agenda(REAL, told.events).waiting) == [TITLES[1], *TITLES[2:]]


def test_one_key_asks_everything_again() -> None:
    told = Told().clear(REAL).did(Did.ASK_AGAIN, which="all")
    assert titles(agenda(REAL, told.events).waiting) == TITLES


def test_after_five_minutes_gas_and_alarm_are_due_again() -> None:
    told = Told().clear(REAL)
    now = agenda(REAL, told.events)
    last = now.answered[2].at
    assert not due_again(now, last + timedelta(minutes=4, seconds=59), REAL)
    assert due_again(now, last + timedelta(minutes=5), REAL)
    told.did(Did.ASK_AGAIN, which="gas-alarm")
    assert titles(agenda(REAL, told.events).waiting) == TITLES[1:3]


def test_a_yes_is_taken_back_for_a_reason_alone_and_asked_again() -> None:
    told = Told().asked(REAL, "no", "yes").did(Did.SLIPPED, why=" ")
    assert agenda(REAL, told.events).end is not None
    now = agenda(REAL, told.did(Did.SLIPPED, why="they said no, I pressed y").events)
    assert (now.end, now.next.title, now.slips) == (None, TITLES[1], ("they said no, I pressed y",))


def test_what_was_heard_during_an_emergency_is_asked_about_once_the_yes_is_taken_back() -> None:
    told = Told().clear(REAL).did(Did.ASK_AGAIN, which="gas-alarm")
    told.did(Did.ASKED, step=agenda(REAL, told.events).next.anchor, answer="yes")
    told.did(Did.NOTED, words="there is smoke", danger="fire")
    assert agenda(REAL, told.events).next is None
    told.did(Did.SLIPPED, why="they said no")
    assert titles(agenda(REAL, told.events).waiting) == TITLES[1:4]


def test_a_library_whose_questions_know_only_yes_and_no_takes_doubt_as_yes() -> None:
    assert agenda(BOOKS, Told().asked(BOOKS, "not-sure").events).end.title == "Get out"

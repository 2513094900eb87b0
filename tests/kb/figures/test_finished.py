from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from kb.desk.danger import questions
from kb.desk.events import Did, Event
from kb.figures.finished import call_row, job_row
from kb.figures.rows import CallRow, Stop
from kb.figures.weeks import Week
from kb.visit.job import Closed, Job, Return
from tests.kb.desk.calling import BEGAN, Told, books, no_to

LONDON = ZoneInfo("Europe/London")
LIBRARY = books()


def counted(told: Told, how: str = "booked", began: datetime = BEGAN) -> CallRow:
    row = call_row(LIBRARY, "one", began, told.did(Did.CLOSED, how=how).events, LONDON)
    assert row is not None
    return row


def walked(*answers: str) -> Told:
    told = Told().clear(LIBRARY).did(Did.BEGAN, article="pressure", trail=no_to(LIBRARY), how="desk")
    return told.answered(LIBRARY, *answers, start=len(questions(LIBRARY)))


def test_an_open_call_is_not_counted() -> None:
    assert call_row(LIBRARY, "one", BEGAN, walked().events, LONDON) is None


def test_a_call_is_about_what_its_fault_is_about() -> None:
    assert counted(walked("Yes")).category == "pressure"


def test_a_call_that_came_to_danger_is_about_that_danger() -> None:
    row = counted(Told().asked(LIBRARY, "yes"), how="emergency")

    assert row.category == "gas-smell"
    assert row.stops == ()


def test_a_call_without_any_fault_is_about_something_else() -> None:
    assert counted(Told().clear(LIBRARY)).category == "other"


def test_danger_is_answered_with_the_last_no() -> None:
    questions_asked = len(questions(LIBRARY))

    assert counted(walked("Yes")).danger == 10 * (questions_asked - 1)


def test_danger_is_answered_with_the_first_yes_and_a_long_wait_before_it_counts() -> None:
    told = Told().asked(LIBRARY, "not-sure")

    assert counted(told, "emergency", BEGAN - timedelta(seconds=70)).danger == 70


def test_danger_that_was_not_asked_to_the_end_was_not_answered() -> None:
    assert counted(Told().asked(LIBRARY, "no")).danger is None


@pytest.mark.parametrize(("how", "stops"), [("booked", ("pressure.md#what-does-it-say",)), ("solved", ())])
def test_a_walk_that_was_left_stopped_at_the_step_that_waits(how: str, stops: tuple[str, ...]) -> None:
    assert counted(walked("Yes"), how).stops == tuple(Stop(step, alone=False) for step in stops)


def test_a_walk_that_came_to_its_end_stopped_nowhere() -> None:
    assert counted(walked("No")).stops == ()


def test_a_household_that_rang_with_a_reference_had_stopped_by_itself() -> None:
    yes = next(event.get("piece") for event in walked("Yes").events if event.did is Did.ANSWERED)
    trail = f"{no_to(LIBRARY)}-{yes}"
    told = Told().clear(LIBRARY).did(Did.BEGAN, article="pressure", trail=trail, how="reference")
    told.answered(LIBRARY, "Low~0.3", start=len(questions(LIBRARY)) + 1)

    before, after = (
        Stop("pressure.md#what-does-it-say", True),
        Stop("tried.md#how-many-times-was-it-reset-before", False),
    )
    assert counted(told).stops == (before, after)


@pytest.mark.parametrize(("works", "back"), [("no", True), ("yes", False)])
def test_what_they_say_when_they_are_asked_again_is_counted(works: str, back: bool) -> None:
    told = walked("Yes").did(Did.CLOSED, how="solved").did(Did.FOLLOWED, works=works)
    row = call_row(LIBRARY, "one", BEGAN, told.events, LONDON)

    assert row is not None
    assert row.back is back


def test_the_cold_is_taken_from_what_was_said_of_it() -> None:
    assert counted(walked("Yes").did(Did.PEOPLE, outdoor="minus 3")).outdoor == -3
    assert counted(walked("Yes").did(Did.PEOPLE, outdoor="cold")).outdoor is None


def test_a_call_belongs_to_the_week_on_the_firms_own_wall() -> None:
    late_on_sunday_in_utc = datetime(2026, 6, 7, 23, 30, tzinfo=UTC)

    assert counted(walked("Yes"), began=late_on_sunday_in_utc).week == Week.of(datetime(2026, 6, 8).date())


def test_a_call_about_an_article_that_is_gone_is_counted_all_the_same() -> None:
    told = Told().clear(LIBRARY).did(Did.BEGAN, article="gone", trail="", how="desk")

    assert counted(told).category == "other"


def test_a_job_is_counted_once_it_is_closed() -> None:
    closed = Closed(
        BEGAN, "Ash", "Weep", "fixed", "no", minutes=40, predicted=("Vessel flat", "Weep", "Else"),
        taken=("gauge", "olives"), used=("olives",),
    )  # fmt: skip
    job = Job("one", "pressure", BEGAN, "Ash", closed=closed)
    row = job_row(LIBRARY, job, LONDON, home=4)

    assert job_row(LIBRARY, Job("one", "pressure", BEGAN, "Ash"), LONDON) is None
    assert row is not None
    assert (row.category, row.cause, row.home, row.minutes) == ("pressure", "Weep", 4, 40)
    assert row.expected == ("Vessel flat", "Weep")
    assert (row.taken, row.used) == ({"gauge", "olives"}, {"olives"})
    assert row.fixed


def test_a_job_that_waits_for_a_part_is_not_fixed() -> None:
    job = Job("one", "pressure", BEGAN, "Ash", closed=Closed(BEGAN, "Ash", "Weep", "waiting", "no"))
    row = job_row(LIBRARY, job, LONDON)

    assert row is not None
    assert not row.fixed


def test_a_second_visit_is_no_first_one_and_guessed_nothing() -> None:
    closed = Closed(BEGAN, "Ash", "Weep", "fixed", "no", predicted=("Weep", "Vessel flat"))
    row = job_row(LIBRARY, Job("two", "pressure", BEGAN, "Ash", closed=closed, returns=Return("one")), LONDON)

    assert row is not None
    assert (row.returns, row.expected) == (True, ())


def paced(*answers: tuple[float, str]) -> Told:
    """Danger questions answered with so many seconds between them."""
    told, at = Told(), BEGAN
    for step, (after, said) in zip(questions(LIBRARY), answers, strict=False):
        at += timedelta(seconds=after)
        told.events.append(Event(f"d{at}", at, "Wren", Did.ASKED, {"step": step.anchor, "answer": said}))
    return told


def test_the_question_that_took_longest_is_kept_with_its_seconds() -> None:
    row = counted(paced((5, "no"), (70, "no")))
    assert (row.danger, row.stuck, row.stuck_for) == (75, "danger.md#is-an-alarm-sounding", 70)


def test_a_yes_ends_the_round_at_its_question() -> None:
    row = counted(paced((65, "yes")), how="emergency")
    assert (row.danger, row.stuck, row.stuck_for) == (65, "danger.md#can-you-smell-gas", 65)


def test_a_question_that_was_never_answered_is_where_it_stuck() -> None:
    row = counted(paced((5, "no")), how="no-answer")
    assert (row.danger, row.stuck, row.stuck_for) == (None, "danger.md#is-an-alarm-sounding", None)

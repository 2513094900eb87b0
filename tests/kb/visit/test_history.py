from dataclasses import replace
from datetime import UTC, date, timedelta

from kb.visit.history import history, last_time
from kb.visit.job import Closed, Return
from tests.kb.visit.building import NOON, job

CLOSED = Closed(NOON, "Robin", "The pump", "waiting", "no", used=("gaskets",))
FIRST = replace(
    job({"reading:12345678": "1.2 bar gauge, cold", "remark": "Stiff screws", "unsafe-what": "A leak"}), closed=CLOSED
)
SECOND = replace(job({}), id="job-2", returns=Return("job-1", "", "pump", "sent", date(2026, 11, 28)))


def test_calls_and_closed_visits_stand_together_the_newest_first() -> None:
    calls = [(NOON - timedelta(days=2), "solved"), (NOON + timedelta(days=2), "")]
    assert history(calls, [FIRST, job({})], UTC) == (
        "27 November 2026: They rang. Still open.",
        "25 November 2026: Visit by Robin: The pump, a part was to follow. Used: gaskets.",
        "23 November 2026: They rang. Solved by phone.",
    )


def test_a_second_visit_is_told_what_the_first_one_left() -> None:
    lines = [(each.question, each.answer) for each in last_time(FIRST, SECOND, UTC)]
    assert lines == [
        ("Bring", "pump. It is sent to the home, there by 28 November 2026"),
        ("It was", "The pump"),
        ("Left", "a part was to follow by Robin"),
        ("Measured", "1.2 bar gauge, cold"),
        ("To know", "Stiff screws"),
    ]


def test_something_unsafe_is_told_before_anybody_goes_again() -> None:
    unsafe = replace(FIRST, closed=replace(CLOSED, unsafe="at-risk"))
    assert ("Unsafe then", "A leak") in [(each.question, each.answer) for each in last_time(unsafe, SECOND, UTC)]


def test_a_first_visit_has_no_last_time() -> None:
    assert list(last_time(FIRST, job({}), UTC)) == []
    assert list(last_time(replace(FIRST, closed=None), SECOND, UTC)) == []

from contextlib import closing
from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import delete

from kb import keys
from kb.desk.events import Did, Event
from kb.figures.rows import CallRow, Counted, JobRow
from kb.figures.weeks import Span, Week
from kb.home import Home
from kb.visit.job import Closed, Job
from server.store import Store
from server.store.figure_tables import FIGURE_CALLS, FIGURE_JOBS, FIGURE_PARTS, FIGURE_STOPS
from tests import figuring
from tests.figuring import HOMES, NOW, THIS_WEEK, TODAY

SPAN = Span(Week(THIS_WEEK.number - 5), THIS_WEEK)


@pytest.fixture
def homes(store: Store) -> list[Home]:
    found = [Home(keys.make(), "any", f"Any {number}") for number in range(1, HOMES + 1)]
    for home in found:
        store.put(home)
    return found


def counted(store: Store, span: Span = SPAN) -> Counted:
    return store.figures.counted(span, NOW, TODAY)


def emptied(store: Store) -> None:
    with store.figures._engine.begin() as connection:
        for table in (FIGURE_STOPS, FIGURE_CALLS, FIGURE_PARTS, FIGURE_JOBS):
            connection.execute(delete(table))


def a_call(id: str, hours_ago: float, home: int | None = 1, how: str = "solved") -> CallRow:
    began = NOW - timedelta(hours=hours_ago)
    return CallRow(id, began, began + timedelta(minutes=5), Week.of(began.date()), "controls", how, home)


def a_job(id: str, days_ago: float, cause: str = "ice", home: int | None = 1) -> JobRow:
    closed = NOW - timedelta(days=days_ago)
    return JobRow(id, closed, Week.of(closed.date()), "condensate", cause, home, fixed=True)


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(rows=figuring.calls(), cut=st.integers(0, 12))
def test_calls_are_counted_as_they_would_be_one_by_one(store: Store, homes, rows, cut: int) -> None:
    emptied(store)
    for some in (rows[cut:], rows[:cut]):
        store.figures.add_calls(some)

    found = counted(store)

    assert set(found.calls) == figuring.count_calls(rows, SPAN, NOW)
    assert set(found.stops) == figuring.count_stops(rows, SPAN)
    assert found.homes == len({row.home for row in rows} - {None})


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(rows=figuring.jobs(), cut=st.integers(0, 12))
def test_jobs_are_counted_as_they_would_be_one_by_one(store: Store, homes, rows, cut: int) -> None:
    emptied(store)
    for some in (rows[cut:], rows[:cut]):
        store.figures.add_jobs(some)

    found = counted(store)

    assert set(found.jobs) == figuring.count_jobs(rows, SPAN, NOW)
    assert set(found.parts) == figuring.count_parts(rows, SPAN)
    assert set(found.causes) == figuring.count_causes(rows, SPAN)


@pytest.mark.parametrize(("hours", "came_back"), [(40, 1), (52, 0)])
def test_a_call_came_back_if_its_home_rang_again_within_48_hours(
    store: Store, homes, hours: int, came_back: int
) -> None:
    store.figures.add_calls([a_call("first", 150)])
    store.figures.add_calls([a_call("second", 150 - hours, how="booked")])

    assert sum(each.back for each in counted(store).calls) == came_back


def test_a_call_of_another_home_is_not_the_first_one_coming_back(store: Store, homes) -> None:
    store.figures.add_calls([a_call("first", 150, home=1), a_call("second", 140, home=2, how="booked")])

    assert sum(each.back for each in counted(store).calls) == 0


def test_a_fault_that_took_a_second_visit_was_not_fixed_at_the_first(store: Store, homes) -> None:
    """Also where the part came after 28 days, or the second visit found another cause."""
    store.figures.add_jobs([replace(a_job("one", 100), fixed=False)])
    store.figures.add_jobs([replace(a_job("two", 60, "dirt"), returns=True)])
    found = counted(store, Span(Week(THIS_WEEK.number - 20), THIS_WEEK)).jobs
    assert (sum(each.jobs for each in found), sum(each.settled for each in found)) == (2, 1)
    assert sum(each.lasting for each in found) == 0


@pytest.mark.parametrize(("cause", "lasting"), [("ice", 0), ("dirt", 1)])
def test_a_job_lasts_unless_the_same_cause_returns_within_28_days(
    store: Store, homes, cause: str, lasting: int
) -> None:
    store.figures.add_jobs([a_job("first", 35)])
    store.figures.add_jobs([a_job("second", 20, cause)])

    assert sum(each.lasting for each in counted(store, Span(Week(THIS_WEEK.number - 8), THIS_WEEK)).jobs) == lasting


def test_what_is_kept_again_takes_the_place_of_what_was(store: Store, homes) -> None:
    for how in ("booked", "solved"):
        store.figures.add_calls([a_call("one", 100, how=how)])

    (only,) = counted(store).calls
    assert (only.calls, only.solved) == (1, 1)


def test_homes_that_call_often_are_named_the_most_frequent_first(store: Store, homes) -> None:
    rows = [a_call(f"{home}-{n}", 100 * n + 60, home) for home, times in ((1, 2), (2, 3), (3, 5)) for n in range(times)]
    store.figures.add_calls(rows)

    found = counted(store)

    assert [(each.key, each.calls) for each in found.callers] == [(homes[2].key, 5), (homes[1].key, 3)]
    assert found.homes == 3


def test_services_are_counted_by_how_late_they_are(store: Store) -> None:
    late = (-3, 0, 1, 31, 32, 92, 93, 366, 367, 2000)
    for days in late:
        store.put(Home(keys.make(), "any", "Any", next_service=TODAY - timedelta(days=days)))
    store.put(Home(keys.make(), "any", "Any"))
    gone = Home(keys.make(), "any", "Any", next_service=date(2020, 1, 1))
    store.put(gone)
    store.revoke(gone.key)

    found = counted(store)

    assert found.overdue == (2, 2, 1, 1, 2)
    assert found.serviced == len(late)


def test_a_call_waits_until_it_is_closed_and_again_when_it_was_asked_about(store: Store, homes) -> None:
    figures = store.figures
    store.calls.begin("one", "Wren", NOW)
    store.calls.add("one", Event("a", NOW, "Wren", Did.HOME, {"key": homes[1].key}))
    assert figures.waiting(10) == ()

    store.calls.add("one", Event("b", NOW, "Wren", Did.CLOSED, {"how": "solved"}))
    (waiting,) = figures.waiting(10)
    assert (waiting.id, waiting.home) == ("one", 2)

    figures.add_calls([CallRow("one", NOW, NOW, THIS_WEEK, "controls", "solved", upto=waiting.upto)])
    assert figures.waiting(10) == ()

    store.calls.add("one", Event("c", NOW, "Wren", Did.FOLLOWED, {"works": "no"}))
    assert [each.id for each in figures.waiting(10)] == ["one"]


def test_no_more_calls_wait_than_were_asked_for_and_the_oldest_come_first(store: Store) -> None:
    for id in ("one", "two", "three"):
        store.calls.begin(id, "Wren", NOW)
        store.calls.add(id, Event("b", NOW, "Wren", Did.CLOSED, {"how": "booked"}))

    assert [each.id for each in store.figures.waiting(2)] == ["one", "two"]


def test_a_job_waits_from_when_it_is_closed_until_it_is_counted(store: Store, homes) -> None:
    store.jobs.begin(Job("one", "condensate", NOW, "Ash", key=homes[2].key))
    assert store.figures.waiting_jobs(10) == ()

    store.jobs.close("one", Closed(NOW, "Ash", "ice", "fixed", "no"), {})
    (waiting,) = store.figures.waiting_jobs(10)
    assert (waiting.id, waiting.home) == ("one", 3)

    store.figures.add_jobs([JobRow("one", NOW, THIS_WEEK, "condensate", "ice")])
    assert store.figures.waiting_jobs(10) == ()


def test_the_first_week_is_that_of_the_first_call_or_job(address: str) -> None:
    with closing(Store(address)) as store:
        assert store.figures.earliest() is None
        store.figures.add_calls([a_call("one", 24, home=None)])
        store.figures.add_jobs([a_job("one", 40, home=None)])
        assert store.figures.earliest() == Week.of((NOW - timedelta(days=40)).date())


def test_the_calls_that_took_longer_than_a_minute_come_newest_first(store: Store) -> None:
    rows = [
        replace(a_call("late", 3, None), danger=75.0, stuck="danger.md#gas", stuck_for=60.0),
        replace(a_call("soon", 2, None), danger=60.0),
        replace(a_call("never", 1, None), danger=None, stuck="danger.md#alarm"),
        replace(a_call("long-ago", 24 * 60, None), danger=90.0),
    ]
    store.figures.add_calls(rows)
    found = store.figures.slow(SPAN)
    assert [(each.danger, each.stuck, each.stuck_for) for each in found] == [
        (None, "danger.md#alarm", None),
        (75.0, "danger.md#gas", 60.0),
    ]
    assert found[0].began == rows[2].began

from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from kb.appointment import AGAIN, OFF, Appointment, NotMade, Window, said
from kb.desk.events import Did, Event
from kb.visit.job import Closed, Job
from server.store import Store
from tests.server.store.building import FIRST

NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)
THURSDAY = Appointment(Window(date(2026, 11, 26), 480, 720), "Robin", "", NOON + timedelta(days=1), "Wren", NOON)
FRIDAY = Appointment(Window(date(2026, 11, 27), 720, 1050), "Sam", "they are away", NOON, "Ash", NOON)
OFF_NOW = NotMade(OFF, "works", "it heats", "Ash", NOON)
NOBODY_IN = NotMade(AGAIN, "nobody", "", "Robin", NOON)
CLOSED = Closed(NOON, "Robin", "Vessel", "fixed", "no")


def book(store: Store, call: str = "call-1", agreed: Appointment | None = THURSDAY, at: datetime = NOON) -> None:
    store.calls.begin(call, "Wren", at)
    if agreed is not None:
        store.calls.add(call, Event("booked", at, "Wren", Did.BOOKED, said(agreed)))
    store.calls.add(call, Event("closed", at, "Wren", Did.CLOSED, {"how": "booked"}))


def job(call: str = "", by: str = "Robin", id: str = "job-1") -> Job:
    return Job(id, "low-pressure", NOON, by, FIRST, call)


@pytest.fixture
def booked(store: Store) -> Store:
    book(store)
    return store


def test_a_booked_call_is_to_be_visited_as_it_was_agreed(booked: Store) -> None:
    (visit,) = booked.appointments.to_visit()
    assert (visit.id, visit.job, visit.owner, visit.agreed) == ("c-call-1", "", "Robin", THURSDAY)
    assert booked.appointments.one("c-call-1") == visit


def test_calls_that_ended_otherwise_are_none(store: Store) -> None:
    store.calls.begin("call-1", "Wren", NOON)
    store.calls.add("call-1", Event("closed", NOON, "Wren", Did.CLOSED, {"how": "solved"}))
    assert store.appointments.to_visit() == ()


def test_a_booking_of_before_there_were_appointments_is_there_too(store: Store) -> None:
    book(store, agreed=None)
    (visit,) = store.appointments.to_visit()
    assert (visit.agreed, visit.owner) == (None, "")


@pytest.mark.parametrize("id", ["", "c-", "j-", "c-another", "j-call-1", "x-call-1", "call-1"])
def test_nothing_else_is_a_visit(booked: Store, id: str) -> None:
    assert booked.appointments.one(id) is None or id == ""


def test_a_visit_that_is_moved_keeps_its_trail_and_the_call_tells_of_it(booked: Store) -> None:
    assert booked.appointments.move("c-call-1", FRIDAY, "sent-1")
    (visit,) = booked.appointments.to_visit()
    assert (visit.owner, visit.agreed) == ("Sam", FRIDAY)
    assert booked.appointments.trail(visit) == (THURSDAY, FRIDAY)
    events = booked.calls.call("call-1").events
    assert [each.by for each in events if each.did is Did.BOOKED] == ["Wren", "Ash"]


def test_what_is_sent_twice_moves_once(booked: Store) -> None:
    for _ in range(2):
        booked.appointments.move("c-call-1", FRIDAY, "sent-1")
    assert len(booked.appointments.trail(booked.appointments.to_visit()[0])) == 2


def test_what_is_sent_many_times_at_once_moves_once(booked: Store) -> None:
    with ThreadPoolExecutor(4) as four:
        list(four.map(lambda _: booked.appointments.move("c-call-1", FRIDAY, "sent-1"), range(8)))
    assert len(booked.appointments.trail(booked.appointments.to_visit()[0])) == 2


def test_whoever_takes_a_visit_has_it(booked: Store) -> None:
    booked.jobs.begin(job("call-1", by="Sam"))
    (visit,) = booked.appointments.to_visit()
    assert (visit.id, visit.job, visit.owner) == ("c-call-1", "job-1", "Sam")
    assert visit.agreed == replace(THURSDAY, engineer="Sam", by="Sam")


def test_a_visit_that_was_taken_is_given_to_another_with_its_job(booked: Store) -> None:
    booked.jobs.begin(job("call-1"))
    booked.appointments.move("c-call-1", FRIDAY, "sent-1")
    assert booked.jobs.job("job-1").by == "Sam"
    assert booked.appointments.take("job-1", "Robin", NOON)
    (visit,) = booked.appointments.to_visit()
    assert (visit.owner, visit.agreed.engineer) == ("Robin", "Robin")
    assert [each.engineer for each in booked.appointments.trail(visit)] == ["Robin", "Sam", "Robin"]


def test_moving_and_taking_at_once_leave_one_owner(booked: Store) -> None:
    with ThreadPoolExecutor(2) as two:
        moved = two.submit(booked.appointments.move, "c-call-1", FRIDAY, "sent-1")
        begun = two.submit(booked.jobs.begin, job("call-1", by="Robin"))
        assert moved.result()
        assert begun.result().id == "job-1"
    (visit,) = booked.appointments.to_visit()
    assert visit.owner == visit.agreed.engineer == booked.jobs.job("job-1").by


def test_a_visit_that_is_over_is_neither_moved_nor_taken(booked: Store) -> None:
    booked.jobs.begin(job("call-1"))
    booked.jobs.close("job-1", CLOSED, {})
    assert booked.appointments.to_visit() == ()
    assert not booked.appointments.move("c-call-1", FRIDAY, "sent-1")
    assert not booked.appointments.take("job-1", "Sam", NOON)
    assert booked.appointments.trail_of(booked.jobs.job("job-1")) == (THURSDAY,)


def test_a_visit_without_a_call_has_appointments_of_its_own(store: Store) -> None:
    store.jobs.begin(job())
    store.appointments.move("j-job-1", FRIDAY, "sent-1")
    store.appointments.move("j-job-1", FRIDAY, "sent-1")
    (visit,) = store.appointments.to_visit()
    assert (visit.id, visit.owner, visit.agreed) == ("j-job-1", "Sam", FRIDAY)
    assert store.appointments.trail(visit) == (FRIDAY,)


def test_two_visits_keep_apart(booked: Store) -> None:
    book(booked, "call-2", FRIDAY, NOON + timedelta(hours=1))
    booked.jobs.begin(job(id="job-9"))
    agreed = {each.id: each.agreed and each.agreed.window for each in booked.appointments.to_visit()}
    assert agreed == {"c-call-1": THURSDAY.window, "c-call-2": FRIDAY.window, "j-job-9": None}


def test_what_one_process_agreed_another_reads(booked: Store, address: str) -> None:
    with Store(address) as other:
        assert other.appointments.to_visit() == booked.appointments.to_visit()


def test_a_visit_that_was_called_off_is_in_no_list_and_its_call_tells_why(booked: Store) -> None:
    assert booked.appointments.leave("c-call-1", OFF_NOW, "sent-1")
    assert booked.appointments.to_visit() == ()
    assert booked.appointments.one("c-call-1") is None
    said_last = booked.calls.call("call-1").events[-1]
    assert (said_last.did, said_last.by, said_last.said) == (
        Did.NOT_MADE, "Ash", {"what": "off", "reason": "works", "words": "it heats"}
    )  # fmt: skip
    assert not booked.appointments.move("c-call-1", FRIDAY, "sent-2")
    assert not booked.appointments.leave("c-call-1", OFF_NOW, "sent-3")


@pytest.mark.parametrize("call", ["call-1", ""])
def test_a_job_that_was_called_off_is_open_no_more_and_teaches_nothing(booked: Store, call: str) -> None:
    booked.jobs.begin(job(call))
    others = len(booked.appointments.to_visit())
    assert booked.appointments.leave("c-call-1" if call else "j-job-1", OFF_NOW, "sent-1")
    assert len(booked.appointments.to_visit()) == others - 1
    assert not booked.appointments.take("job-1", "Sam", NOON)
    assert booked.appointments.trail_of(booked.jobs.job("job-1"))[-1] == OFF_NOW
    assert booked.jobs.tally("low-pressure").jobs == 0
    assert booked.figures.waiting_jobs(9) == ()


def test_where_nobody_was_in_it_waits_untaken_until_a_time_is_agreed(booked: Store) -> None:
    booked.jobs.begin(job("call-1"))
    assert booked.appointments.leave("c-call-1", NOBODY_IN, "sent-1")
    (visit,) = booked.appointments.to_visit()
    assert (visit.job, visit.owner, visit.agreed, visit.missed) == ("job-1", "", None, NOBODY_IN)
    assert booked.appointments.move("c-call-1", FRIDAY, "sent-2")
    (visit,) = booked.appointments.to_visit()
    assert (visit.owner, visit.agreed, visit.missed) == ("Sam", FRIDAY, None)
    assert booked.appointments.trail(visit) == (THURSDAY, NOBODY_IN, FRIDAY)


def test_what_was_agreed_meanwhile_stays(booked: Store) -> None:
    booked.appointments.move("c-call-1", FRIDAY, "sent-1")
    assert not booked.appointments.leave("c-call-1", OFF_NOW, "sent-2", stood=1)
    assert booked.appointments.leave("c-call-1", OFF_NOW, "sent-2", stood=2)


def test_calling_off_many_times_at_once_is_done_once(booked: Store) -> None:
    with ThreadPoolExecutor(4) as four:
        done = list(four.map(lambda n: booked.appointments.leave("c-call-1", OFF_NOW, f"sent-{n}"), range(8)))
    assert sorted(done) == [False] * 7 + [True]


def test_whoever_was_there_all_the_same_closes_the_job_and_that_counts(booked: Store) -> None:
    booked.jobs.begin(job("call-1"))
    booked.appointments.leave("c-call-1", OFF_NOW, "sent-1")
    assert booked.jobs.close("job-1", CLOSED, {})
    assert booked.jobs.tally("low-pressure").jobs == 1

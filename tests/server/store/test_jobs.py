import time
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from random import Random

import pytest
from sqlalchemy import insert

from kb.appointment import Appointment, Window
from kb.desk.events import Did, Event
from kb.handover.record import Entry
from kb.prose import Target
from kb.triage.jobs import ClosedJob, tally
from kb.visit.after import After
from kb.visit.job import Closed, Job, Return
from server.store import Store, StoreError
from server.store.job_tables import ANSWERS, JOBS
from server.store.jobs import NoSuchJob
from server.store.register import Printed
from tests.server.store.building import FIRST, SECOND, behind, home

NOON = datetime(2026, 11, 25, 12, 0, 0, 123456, tzinfo=UTC)
JOB = Job("job-1", "low-pressure", NOON, "Robin", FIRST, "", "any")
CLOSED = Closed(
    NOON, "Robin", "Weep – at a valve", "fixed", "no", "in words", 45, ("Vessel", "Weep – at a valve"), ("vessel",),
    ("olives",), "at-risk", date(2026, 12, 9), 25, "plan", "right",
)  # fmt: skip
SAYS, COLD = Target("low-pressure", "what-does-it-say"), Target("low-pressure", "read-it-cold")


def entry(number: int, text: str = "fixed", field: str = "outcome", **changes: object) -> Entry:
    return replace(Entry(f"entry-{number:04}", number, field, text, "Robin", NOON), **changes)


def booked(store: Store, id: str, at: datetime = NOON, how: str = "booked") -> None:
    store.calls.begin(id, "Wren", at)
    store.calls.add(id, Event(f"{id}-closed", at, "Wren", Did.CLOSED, {"how": how}))


@pytest.fixture
def jobs(store: Store):
    store.jobs.begin(JOB)
    return store.jobs


def test_a_job_is_what_was_begun_with_what_was_known_first(store):
    begun = replace(JOB, entries=(entry(1), entry(2, "09:10", "arrived")))
    assert store.jobs.begin(begun) == begun
    assert store.jobs.job("job-1") == begun
    assert store.jobs.job("another") is None


def test_an_entry_that_is_sent_twice_is_kept_once(jobs):
    assert jobs.save("job-1", entry(1))
    assert not jobs.save("job-1", entry(1))
    assert jobs.job("job-1").entries == (entry(1),)


def test_an_entry_that_is_sent_many_times_at_once_is_kept_once(jobs):
    with ThreadPoolExecutor(4) as four:
        new = list(four.map(lambda _: jobs.save("job-1", entry(1)), range(8)))
    assert new.count(True) == 1


def test_entries_count_in_the_order_they_were_written_not_the_one_they_came_in(jobs):
    jobs.save("job-1", entry(9, "later"))
    jobs.save("job-1", entry(4, "earlier"))
    assert jobs.job("job-1").texts == {"outcome": "later"}


def test_nothing_is_kept_of_a_job_that_is_not_there(jobs):
    with pytest.raises(NoSuchJob):
        jobs.save("another", entry(1))
    with pytest.raises(NoSuchJob):
        jobs.close("another", CLOSED, {})


def test_what_one_process_wrote_another_reads(jobs, address):
    jobs.save("job-1", entry(1))
    jobs.close("job-1", CLOSED, {SAYS: "Low"})
    with Store(address) as other:
        assert other.jobs.job("job-1") == jobs.job("job-1")
        assert not other.jobs.save("job-1", entry(1))


def test_a_job_is_closed_once_and_as_it_was_closed(jobs):
    assert jobs.close("job-1", CLOSED, {SAYS: "Low"})
    assert not jobs.close("job-1", replace(CLOSED, cause="Vessel"), {SAYS: "Right"})
    assert jobs.job("job-1").closed == CLOSED


def test_a_job_that_is_closed_many_times_at_once_is_closed_once(jobs):
    with ThreadPoolExecutor(4) as four:
        closed = list(four.map(lambda _: jobs.close("job-1", CLOSED, {SAYS: "Low"}), range(8)))
    assert closed.count(True) == 1
    assert jobs.tally("low-pressure").jobs == 1


def test_what_arrives_after_the_closing_is_kept_and_changes_nothing_of_it(jobs):
    jobs.close("job-1", CLOSED, {})
    assert jobs.save("job-1", entry(1, "waiting"))
    assert jobs.job("job-1").closed == CLOSED


def test_a_homes_jobs_are_found_by_its_key(jobs):
    jobs.begin(replace(JOB, id="job-2", key=SECOND))
    assert [each.id for each in jobs.of_home(FIRST)] == ["job-1"]


def test_a_call_has_one_job_however_many_take_it_at_once(store):
    booked(store, "one")
    takers = [replace(JOB, id=f"job-{n}", by=f"engineer {n}", call="one") for n in range(4)]
    with ThreadPoolExecutor(4) as four:
        taken = list(four.map(store.jobs.begin, takers))
    assert len({each.id for each in taken}) == 1
    assert [each.job for each in store.appointments.to_visit()] == [taken[0].id]


def waiting(jobs) -> Job:
    """A second job that a first one, closed, left."""
    second = replace(JOB, id="job-2", by="", returns=Return("job-1", "", "pump", "office", date(2026, 11, 28)),
                     entries=(entry(1, "pump", "parts-taken"),))  # fmt: skip
    window = Appointment(Window(date(2026, 12, 1), 480, 720), by="Robin", at=NOON)
    waits = replace(CLOSED, outcome="waiting", cause="Weep")
    assert jobs.close("job-1", waits, {SAYS: "Low"}, After(second, window))
    return second


def test_a_second_visit_is_there_at_once_with_all_that_is_known(jobs, store):
    second = waiting(jobs)
    assert jobs.job("job-2") == second
    assert jobs.returning("job-1") == "job-2"
    assert jobs.returning("job-2") == ""
    (visit,) = store.appointments.to_visit()
    assert (visit.id, visit.owner, visit.agreed.window.day) == ("j-job-2", "", date(2026, 12, 1))


def test_a_job_that_is_closed_again_leaves_no_other_second_visit(jobs):
    waiting(jobs)
    other = After(replace(JOB, id="job-3", returns=Return("job-1")))
    assert not jobs.close("job-1", CLOSED, {}, other)
    assert jobs.job("job-3") is None


def test_a_second_visit_that_cannot_be_kept_leaves_the_first_open(jobs):
    wrong = After(replace(JOB, id="job-1", returns=Return("job-1")))
    with pytest.raises(StoreError):
        jobs.close("job-1", CLOSED, {SAYS: "Low"}, wrong)
    assert jobs.job("job-1").closed is None
    assert jobs.tally("low-pressure").jobs == 0


def test_a_fault_that_took_two_visits_teaches_once_what_the_second_proved(jobs):
    waiting(jobs)
    assert jobs.tally("low-pressure").causes == {"Weep": 1}
    jobs.close("job-2", replace(CLOSED, cause="Vessel"), {SAYS: "Right"})
    found = jobs.tally("low-pressure")
    assert found.causes == {"Vessel": 1}
    assert found.answers == {("Vessel", SAYS, "Right"): 1}


def test_what_an_engineer_found_otherwise_flows_to_the_home_when_the_job_closes(jobs, store):
    store.put(home())
    learnt = {"fact:filling-loop": "keyed", "mark:aim": 1.3, "place:switch": "in the hall"}
    jobs.close("job-1", CLOSED, {}, After(learnt=learnt))
    after = store.home(FIRST)
    assert after.known.facts["filling-loop"] == "keyed"
    assert (after.known.marks.low, after.known.marks.aim) == (0.7, 1.3)
    assert after.places["switch"] == "in the hall"
    (trace,) = store.register.trail(FIRST)
    assert (trace.by, trace.did, set(trace.fields)) == ("Robin", "changed", {"facts", "marks", "places"})


def test_a_home_that_is_gone_does_not_keep_a_job_open(jobs):
    assert jobs.close("job-1", CLOSED, {}, After(learnt={"mark:aim": 1.3}))


def test_a_card_that_must_change_is_told_until_one_is_printed(jobs, store):
    store.put(home())
    jobs.close("job-1", replace(CLOSED, card="changed", card_words="a new loop"), {})
    assert jobs.cards()[FIRST].closed.card_words == "a new loop"
    before = Printed(FIRST, "a6", "0" * 64, NOON - timedelta(days=1))
    store.register.printed([before], "Wren")
    assert set(jobs.cards()) == {FIRST}
    store.register.printed([replace(before, when=NOON + timedelta(minutes=1))], "Wren")
    assert jobs.cards() == {}


def many(amount: int, random: Random) -> list[tuple[Job, dict[Target, str]]]:
    made = []
    for number in range(amount):
        cause, given = random.choice(["Vessel", "Weep"]), {SAYS: random.choice(["Low", "Right"])}
        if random.random() < 0.5:
            given[COLD] = "True"
        closed = replace(CLOSED, cause=cause)
        made.append((replace(JOB, id=f"job-{number}", range=random.choice(["any", "other"]), closed=closed), given))
    return made


def test_the_database_counts_as_python_counts(store):
    """The same jobs counted one by one by kb.triage.jobs, which the tests of the chances hold against scikit-learn."""
    done = many(60, Random(5))
    for job, given in done:
        store.jobs.begin(job)
        store.jobs.close(job.id, job.closed, given)
    store.jobs.begin(replace(JOB, id="open"))
    store.jobs.begin(replace(JOB, id="elsewhere", article="noise"))
    store.jobs.close("elsewhere", CLOSED, {SAYS: "Low"})
    learnt = [ClosedJob(job.article, job.range, job.closed.cause, given) for job, given in done]
    assert store.jobs.tally("low-pressure") == tally(learnt, "low-pressure")
    assert store.jobs.tally("nothing").jobs == 0


def test_ten_thousand_closed_jobs_are_counted_while_a_page_is_made(store, address):
    rows = [{"id": f"j{n}", "category": "low-pressure", "range": f"r{n % 9}", "begun": NOON, "by": "Robin",
             "closed": NOON, "cause": f"c{n % 7}"} for n in range(10_000)]  # fmt: skip
    answers = [
        {"job": f"j{n}", "article": "low-pressure", "anchor": f"a{step}", "answer": f"w{(n + step) % 4}"}
        for n in range(10_000)
        for step in range(6)
    ]
    with behind(address) as connection:
        connection.execute(insert(JOBS), rows)
        connection.execute(insert(ANSWERS), answers)
    began = time.perf_counter()
    found = store.jobs.tally("low-pressure")
    took = time.perf_counter() - began
    assert found.jobs == 10_000
    assert sum(found.asked.values()) == 60_000
    assert took < 1.5, took
    print(f"{took * 1000:.0f} ms")

"""What happened at a home before, in a line each?"""

from collections.abc import Iterable, Iterator
from datetime import datetime, timedelta, tzinfo
from typing import Final

from kb.days import full_day
from kb.desk.events import HOW_CLOSED
from kb.triage.brief import Answer
from kb.visit.job import FETCHES, Job
from kb.visit.readings import readings

LOOK_BACK: Final = timedelta(days=730)
"""How far back calls are told of."""

OUTCOMES: Final = {"fixed": "fixed", "made-safe": "made safe", "waiting": "a part was to follow"}
"""How a job was left, as a line about it ends."""


def history(calls: Iterable[tuple[datetime, str]], jobs: Iterable[Job], zone: tzinfo) -> tuple[str, ...]:
    """Earlier calls, by when they began and how they were closed, and closed visits, the newest first."""
    lines = [(began, f"They rang. {HOW_CLOSED.get(how, 'Still open')}.") for began, how in calls]
    lines += [(job.closed.at, _said(job)) for job in jobs if job.closed]
    return tuple(f"{_day(at, zone)}: {words}" for at, words in sorted(lines, reverse=True))


def last_time(first: Job, second: Job, zone: tzinfo) -> Iterator[Answer]:
    """What the first visit leaves to the second: the part, what it was, what was measured, what to know."""
    why, closed = second.returns, first.closed
    if why is None or closed is None:
        return
    if why.part:
        ready = f", there by {full_day(why.ready)}" if why.ready else ""
        yield Answer("Bring", f"{why.part}. {FETCHES.get(why.who, why.who)}{ready}")
    yield Answer("It was", f"{closed.cause} ({closed.words})" if closed.words else closed.cause)
    yield Answer("Left", f"{OUTCOMES.get(closed.outcome, closed.outcome)} by {closed.by}", _day(closed.at, zone))
    if closed.unsafe:
        yield Answer("Unsafe then", first.texts.get("unsafe-what", "") or closed.unsafe)
    for reading in readings(first.texts):
        yield Answer("Measured", str(reading), _day(closed.at, zone))
    if first.texts.get("remark"):
        yield Answer("To know", first.texts["remark"])


def _said(job: Job) -> str:
    assert job.closed is not None
    used = f" Used: {', '.join(job.closed.used)}." if job.closed.used else ""
    cause = f"{job.closed.cause} ({job.closed.words})" if job.closed.words else job.closed.cause
    return f"Visit by {job.closed.by}: {cause}, {OUTCOMES.get(job.closed.outcome, job.closed.outcome)}.{used}"


def _day(at: datetime, zone: tzinfo) -> str:
    return full_day(at.astimezone(zone))

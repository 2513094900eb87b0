"""What happened at a home before, in a line each?"""

from collections.abc import Iterable
from datetime import datetime, tzinfo

from kb.desk.events import HOW_CLOSED
from kb.visit.job import Job
from server.store.calls import Kept

OUTCOMES = {"fixed": "fixed", "made-safe": "made safe", "waiting": "a part was to follow"}


def history(calls: Iterable[Kept], jobs: Iterable[Job], zone: tzinfo) -> tuple[str, ...]:
    """Earlier calls and closed visits, the newest first."""
    lines = [(call.began, f"They rang. {HOW_CLOSED.get(call.how, 'Still open')}.") for call in calls]
    lines += [(job.closed.at, _said(job)) for job in jobs if job.closed]
    return tuple(f"{_day(at, zone)}: {words}" for at, words in sorted(lines, reverse=True))


def _said(job: Job) -> str:
    assert job.closed is not None
    used = f" Used: {', '.join(job.closed.used)}." if job.closed.used else ""
    cause = f"{job.closed.cause} ({job.closed.words})" if job.closed.words else job.closed.cause
    return f"Visit by {job.closed.by}: {cause}, {OUTCOMES.get(job.closed.outcome, job.closed.outcome)}.{used}"


def _day(at: datetime, zone: tzinfo) -> str:
    return f"{at.astimezone(zone):%-d %B %Y}"

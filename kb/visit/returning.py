"""Who comes back to a home that waits, when, and what need not be written twice?"""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, datetime
from typing import Final

from kb.appointment import Appointment, half_day
from kb.handover.record import Entry
from kb.hours import Hours
from kb.visit.checks import ARRIVAL
from kb.visit.form import slug
from kb.visit.job import ANSWER, Job, Return
from kb.visit.written import Written

CARRIED: Final = ("cause", "cause-words", "unsafe-fuel", "charge")
"""What of the closing form stands in the second visit's already."""

NOBODY: Final = "none"
AFTERNOON: Final = "afternoon"


def comes_back(written: Written) -> bool:
    """Whether somebody comes back once a job is closed as it stands."""
    return written.words("return-when") not in ("", NOBODY)


def returning(job: Job, written: Written, id: str, by: str, at: datetime) -> Job | None:
    """The job of the second visit; None where nobody comes back.

    What was found stands in it: the answers to the fault's own checks, the cause, the part that is brought.
    What keeps people safe is asked anew: danger, the checks on arrival, and whether anything is unsafe.
    """
    if not comes_back(written):
        return None
    ready = written.meaning("fetch-by")
    why = Return(
        job.id,
        job.told_in,
        written.words("part-needed"),
        written.words("fetch-who"),
        ready if isinstance(ready, date) else None,
    )
    owner = by if written.words("return-who") == "me" else ""
    entries = tuple(_entries(job, written, by, at))
    return replace(job, id=id, begun=at, by=owner, call="", entries=entries, closed=None, returns=why)


def agreed(written: Written, hours: Hours, by: str, at: datetime) -> Appointment | None:
    """The appointment that the engineer made with the household; None where the desk is to make one."""
    day, part = written.meaning("return-day"), written.words("return-when")
    if not isinstance(day, date):
        return None
    owner = by if written.words("return-who") == "me" else ""
    return Appointment(half_day(hours, day, part == AFTERNOON), owner, by=by, at=at)


def _entries(job: Job, written: Written, by: str, at: datetime) -> Iterator[Entry]:
    for number, (field, text) in enumerate(_carried(job, written), 1):
        yield Entry(f"carried-{number:04}", number, field, text, by, at)


def _carried(job: Job, written: Written) -> Iterator[tuple[str, str]]:
    for field, text in job.texts.items():
        if text and field.startswith(ANSWER) and not field.startswith(f"{ANSWER}{ARRIVAL}#"):
            yield field, text
    for field in CARRIED:
        if written.words(field):
            yield field, written.words(field)
    part = slug(written.words("part-needed"))
    if part in written.form.parts:
        yield "parts-taken", part

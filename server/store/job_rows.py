"""A job as rows, and rows as a job."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Any, Final

from sqlalchemy import Connection, Row, insert, select

from kb.handover.record import Entry
from kb.prose import Target
from kb.triage.jobs import Tally
from kb.visit.job import Closed, Job, Return
from server.store.appointment_tables import RETURNS
from server.store.job_tables import ENTRIES, JOBS

CLOSING: Final = ("cause", "outcome", "phone", "words", "minutes", "unsafe", "report_by", "travel")
LATER: Final = ("charge", "card", "card_words")
"""What a job that was closed before there was such a thing does not say."""

LISTS: Final = ("predicted", "taken", "used")


def insert_job(connection: Connection, job: Job) -> None:
    """Begin a job, with what is known first and why it is a second visit."""
    connection.execute(insert(JOBS), begun_row(job))
    if job.entries:
        connection.execute(insert(ENTRIES), [entry_row(job.id, entry) for entry in job.entries])
    if job.returns is not None:
        connection.execute(insert(RETURNS), return_row(job.id, job.returns))


def whole_jobs(connection: Connection, rows: Sequence[Row[Any]]) -> list[Job]:
    """The jobs of some rows, with everything in them."""
    ids = [row.id for row in rows]
    entries = entries_of(connection, ids)
    returns = {row.job: return_of(row) for row in connection.execute(select(RETURNS).where(RETURNS.c.job.in_(ids)))}
    return [replace(job_of(row, entries.get(row.id, ())), returns=returns.get(row.id)) for row in rows]


def tally_of(jobs: Iterable[Row[Any]], answers: Iterable[Row[Any]]) -> Tally:
    """The tally of what the database counted."""
    causes: dict[str, int] = {}
    ranges: dict[tuple[str, str], int] = {}
    for row in jobs:
        causes[row.cause] = causes.get(row.cause, 0) + row.jobs
        ranges[row.range, row.cause] = row.jobs
    given: dict[tuple[str, Target, str], int] = {}
    asked: dict[tuple[str, Target], int] = {}
    for row in answers:
        step = Target(row.article, row.anchor)
        given[row.cause, step, row.answer] = row.jobs
        asked[row.cause, step] = asked.get((row.cause, step), 0) + row.jobs
    return Tally(causes, given, asked, ranges)


def begun_row(job: Job) -> Mapping[str, Any]:
    """The row of a job as it is begun."""
    return {
        "id": job.id,
        "call": job.call or None,
        "key": job.key or None,
        "category": job.article,
        "range": job.range,
        "begun": job.begun,
        "by": job.by,
    }


def entry_row(job: str, entry: Entry) -> Mapping[str, Any]:
    """The row of an entry."""
    return {
        "job": job,
        "id": entry.id,
        "sequence": entry.sequence,
        "field": entry.field,
        "text": entry.text,
        "by": entry.by,
        "at": entry.at,
    }


def answer_row(job: str, step: Target, answer: str) -> Mapping[str, Any]:
    """The row of an answer."""
    return {"job": job, "article": step.article, "anchor": step.anchor, "answer": answer}


def entries_of(connection: Connection, ids: Iterable[str]) -> dict[str, tuple[Entry, ...]]:
    """The entries of some jobs, in the order they were written."""
    found: dict[str, list[Entry]] = {}
    query = select(ENTRIES).where(ENTRIES.c.job.in_(list(ids))).order_by(ENTRIES.c.sequence, ENTRIES.c.number)
    for row in connection.execute(query):
        found.setdefault(row.job, []).append(Entry(row.id, row.sequence, row.field, row.text, row.by, row.at))
    return {id: tuple(entries) for id, entries in found.items()}


def job_of(row: Row[Any], entries: tuple[Entry, ...]) -> Job:
    """The job that a row holds."""
    closed = None
    if row.closed is not None:
        values: dict[str, Any] = {name: getattr(row, name) for name in CLOSING}
        values |= {name: tuple(getattr(row, name) or ()) for name in LISTS}
        values |= {name: getattr(row, name) or "" for name in LATER}
        closed = Closed(at=row.closed, by=row.closed_by, **values)
    return Job(row.id, row.category, row.begun, row.by, row.key or "", row.call or "", row.range, entries, closed)


def return_of(row: Row[Any]) -> Return:
    """Why somebody comes back, as a row tells it."""
    return Return(row.follows, row.call or "", row.part, row.who, row.ready)


def return_row(job: str, returns: Return) -> Mapping[str, Any]:
    """The row that tells it."""
    return {
        "job": job,
        "follows": returns.job,
        "call": returns.call or None,
        "part": returns.part,
        "who": returns.who,
        "ready": returns.ready,
    }

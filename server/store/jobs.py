"""Which visits are there, what was found in each, and what do the closed ones show?"""

from collections.abc import Iterable, Mapping
from typing import Any, Final

from sqlalchemy import Connection, Engine, Row, Select, func, insert, select, update

from kb.handover.record import Entry
from kb.prose import Target
from kb.triage.jobs import Tally
from kb.visit.job import Closed, Job
from server.store.answering import answered
from server.store.call_tables import CALLS
from server.store.job_tables import ANSWERS, ENTRIES, JOBS

MOST_LISTED: Final = 50
_CLOSING: Final = ("cause", "outcome", "phone", "words", "minutes", "unsafe", "report_by")
_LISTS: Final = ("predicted", "taken", "used")


class NoSuchJob(Exception):
    """There is no job of that id."""


class Jobs:
    """The jobs of one database; entries are only ever added, and a job is closed once."""

    def __init__(self, engine: Engine, reading: Engine) -> None:
        """Use the store's own connections."""
        self._engine = engine
        self._reading = reading

    def begin(self, job: Job) -> Job:
        """Begin a job; a call that has one already keeps it, and that one is given back."""
        with answered(self._engine), self._engine.begin() as connection:
            if job.call:
                # Who begins for the same call at the same time waits here for the other.
                connection.execute(select(CALLS.c.id).where(CALLS.c.id == job.call).with_for_update()).first()
                row = connection.execute(select(JOBS).where(JOBS.c.call == job.call)).first()
                if row is not None:
                    return _job(row, _entries(connection, [row.id]).get(row.id, ()))
            connection.execute(insert(JOBS), _begun(job))
            if job.entries:
                connection.execute(insert(ENTRIES), [_entry_row(job.id, entry) for entry in job.entries])
        return job

    def save(self, id: str, entry: Entry) -> bool:
        """Keep an entry for good; whether it is new, for one that was kept before is kept once. Raises NoSuchJob.

        What was written before a job was closed and arrives after it is kept like anything else.
        """
        with answered(self._engine), self._engine.begin() as connection:
            _locked(connection, id)
            known = select(ENTRIES.c.number).where(ENTRIES.c.job == id, ENTRIES.c.id == entry.id)
            if connection.execute(known).first():
                return False
            connection.execute(insert(ENTRIES), _entry_row(id, entry))
        return True

    def close(self, id: str, closed: Closed, answers: Mapping[Target, str]) -> bool:
        """Close a job with the evidence its cause is learnt from; False for one that was closed. Raises NoSuchJob."""
        with answered(self._engine), self._engine.begin() as connection:
            if _locked(connection, id).closed is not None:
                return False
            values = {name: getattr(closed, name) for name in _CLOSING}
            lists = {name: list(getattr(closed, name)) for name in _LISTS}
            done = {"closed": closed.at, "closed_by": closed.by}
            connection.execute(update(JOBS).where(JOBS.c.id == id).values(**values, **lists, **done))
            rows = [_answer_row(id, step, answer) for step, answer in answers.items()]
            if rows:
                connection.execute(insert(ANSWERS), rows)
        return True

    def job(self, id: str) -> Job | None:
        """A job with everything in it, or None."""
        with answered(self._engine), self._reading.connect() as connection:
            row = connection.execute(select(JOBS).where(JOBS.c.id == id)).first()
            return _job(row, _entries(connection, [id]).get(id, ())) if row else None

    def open_by(self, name: str) -> tuple[Job, ...]:
        """The jobs that an account took and nobody closed yet, the oldest first."""
        query = select(JOBS).where(JOBS.c.by == name, JOBS.c.closed.is_(None))
        return self._listed(query.order_by(JOBS.c.begun, JOBS.c.id))

    def of_home(self, key: str) -> tuple[Job, ...]:
        """Every job of a home, the newest first."""
        return self._listed(select(JOBS).where(JOBS.c.key == key).order_by(JOBS.c.begun.desc(), JOBS.c.id))

    def untaken(self) -> tuple[str, ...]:
        """The calls that were booked and that nobody took yet, the oldest first."""
        query = select(CALLS.c.id).outerjoin(JOBS, JOBS.c.call == CALLS.c.id)
        booked = query.where(CALLS.c.how == "booked", JOBS.c.id.is_(None))
        with answered(self._engine), self._reading.connect() as connection:
            return tuple(connection.execute(booked.order_by(CALLS.c.closed, CALLS.c.id).limit(MOST_LISTED)).scalars())

    def tally(self, category: str) -> Tally:
        """The closed jobs of a category, counted by the database: by cause, by range, and by what was answered."""
        jobs = select(JOBS.c.range, JOBS.c.cause, func.count().label("jobs"))
        jobs = jobs.where(JOBS.c.category == category, JOBS.c.cause.is_not(None)).group_by(JOBS.c.range, JOBS.c.cause)
        said = (ANSWERS.c.article, ANSWERS.c.anchor, ANSWERS.c.answer)
        answers = select(JOBS.c.cause, *said, func.count().label("jobs")).join(JOBS, JOBS.c.id == ANSWERS.c.job)
        answers = answers.where(JOBS.c.category == category, JOBS.c.cause.is_not(None)).group_by(JOBS.c.cause, *said)
        with answered(self._engine), self._reading.connect() as connection:
            return _tally(connection.execute(jobs).all(), connection.execute(answers).all())

    def _listed(self, query: Select[Any]) -> tuple[Job, ...]:
        with answered(self._engine), self._reading.connect() as connection:
            rows = connection.execute(query.limit(MOST_LISTED)).all()
            entries = _entries(connection, [row.id for row in rows])
        return tuple(_job(row, entries.get(row.id, ())) for row in rows)


def _tally(jobs: Iterable[Row[Any]], answers: Iterable[Row[Any]]) -> Tally:
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


def _locked(connection: Connection, id: str) -> Row[Any]:
    # SQLite lets one transaction write at a time; PostgreSQL holds the row until the transaction ends.
    row = connection.execute(select(JOBS).where(JOBS.c.id == id).with_for_update()).first()
    if row is None:
        raise NoSuchJob
    return row


def _begun(job: Job) -> Mapping[str, Any]:
    return {
        "id": job.id,
        "call": job.call or None,
        "key": job.key or None,
        "category": job.article,
        "range": job.range,
        "begun": job.begun,
        "by": job.by,
    }


def _entry_row(job: str, entry: Entry) -> Mapping[str, Any]:
    return {
        "job": job,
        "id": entry.id,
        "sequence": entry.sequence,
        "field": entry.field,
        "text": entry.text,
        "by": entry.by,
        "at": entry.at,
    }


def _answer_row(job: str, step: Target, answer: str) -> Mapping[str, Any]:
    return {"job": job, "article": step.article, "anchor": step.anchor, "answer": answer}


def _entries(connection: Connection, ids: Iterable[str]) -> dict[str, tuple[Entry, ...]]:
    found: dict[str, list[Entry]] = {}
    query = select(ENTRIES).where(ENTRIES.c.job.in_(list(ids))).order_by(ENTRIES.c.sequence, ENTRIES.c.number)
    for row in connection.execute(query):
        found.setdefault(row.job, []).append(Entry(row.id, row.sequence, row.field, row.text, row.by, row.at))
    return {id: tuple(entries) for id, entries in found.items()}


def _job(row: Row[Any], entries: tuple[Entry, ...]) -> Job:
    closed = None
    if row.closed is not None:
        values: dict[str, Any] = {name: getattr(row, name) for name in _CLOSING}
        values |= {name: tuple(getattr(row, name) or ()) for name in _LISTS}
        closed = Closed(at=row.closed, by=row.closed_by, **values)
    return Job(row.id, row.category, row.begun, row.by, row.key or "", row.call or "", row.range, entries, closed)

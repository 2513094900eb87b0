"""Which visits are there, what was found in each, and what do the closed ones show?"""

from collections.abc import Mapping
from dataclasses import replace
from functools import partial
from typing import Any, Final

from sqlalchemy import ColumnElement, Connection, Engine, Row, Select, and_, func, insert, select, update

from kb.appointment import Appointment, said
from kb.desk.events import Did, Event
from kb.handover.record import Entry
from kb.prose import Target
from kb.register import Record
from kb.triage.jobs import Tally
from kb.visit.after import NOTHING_AFTER, After
from kb.visit.changing import with_learnt
from kb.visit.job import Closed, Job
from server.store.answering import answered
from server.store.appointing import agree, trail_of
from server.store.appointment_tables import RETURNS
from server.store.call_tables import CALLS
from server.store.calls import keep_event
from server.store.job_rows import (
    CLOSING,
    LATER,
    LISTS,
    answer_row,
    entry_row,
    insert_job,
    job_of,
    tally_of,
    whole_jobs,
)
from server.store.job_tables import ANSWERS, ENTRIES, JOBS
from server.store.register.tables import PRINTED_CARDS
from server.store.tables import HOMES
from server.store.teaching import teach

MOST_LISTED: Final = 50
MOST_CARDS: Final = 500
CHANGED: Final = "changed"
"""How a job says that the card must change."""


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
                    return whole_jobs(connection, [row])[0]
            insert_job(connection, job)
            if job.call:
                _named(connection, job)
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
            connection.execute(insert(ENTRIES), entry_row(id, entry))
        return True

    def close(self, id: str, closed: Closed, answers: Mapping[Target, str], after: After = NOTHING_AFTER) -> bool:
        """Close a job with the evidence its cause is learnt from; False for one that was closed. Raises NoSuchJob.

        What follows from it is kept at once or not at all: a second visit, and what its home has learnt.
        """
        with answered(self._engine), self._engine.begin() as connection:
            row = _locked(connection, id)
            if row.closed is not None:
                return False
            values = {name: getattr(closed, name) for name in (*CLOSING, *LATER)}
            lists = {name: list(getattr(closed, name)) for name in LISTS}
            done = {"closed": closed.at, "closed_by": closed.by}
            connection.execute(update(JOBS).where(JOBS.c.id == id).values(**values, **lists, **done))
            rows = [answer_row(id, step, answer) for step, answer in answers.items()]
            if rows:
                connection.execute(insert(ANSWERS), rows)
            if after.returning is not None:
                insert_job(connection, after.returning)
                if after.agreed is not None:
                    agree(connection, f"{after.returning.id}:closing", after.agreed, job=after.returning.id)
            if after.learnt and row.key:
                teach(connection, row.key, partial(_relearnt, after.learnt), closed.by)
        return True

    def job(self, id: str) -> Job | None:
        """A job with everything in it, or None."""
        with answered(self._engine), self._reading.connect() as connection:
            row = connection.execute(select(JOBS).where(JOBS.c.id == id)).first()
            return whole_jobs(connection, [row])[0] if row else None

    def returning(self, id: str) -> str:
        """The job that goes on where this one was closed; nothing where there is none."""
        query = select(RETURNS.c.job).where(RETURNS.c.follows == id)
        with answered(self._engine), self._reading.connect() as connection:
            return connection.execute(query).scalar() or ""

    def cards(self) -> Mapping[str, Job]:
        """The last job of each home, by its key, that was closed with a card that must change.

        A card that was printed since leaves nothing to change.
        """
        homes = select(HOMES.c.id).where(HOMES.c.key == JOBS.c.key).scalar_subquery()
        since = select(PRINTED_CARDS.c.id).where(
            PRINTED_CARDS.c.home_id == homes, PRINTED_CARDS.c.printed > JOBS.c.closed
        )
        query = select(JOBS).where(JOBS.c.card == CHANGED, JOBS.c.key.is_not(None), ~since.exists())
        with answered(self._engine), self._reading.connect() as connection:
            rows = connection.execute(query.order_by(JOBS.c.closed.desc()).limit(MOST_CARDS)).all()
        return {row.key: job_of(row, ()) for row in reversed(rows)}

    def of_home(self, key: str) -> tuple[Job, ...]:
        """Every job of a home, the newest first."""
        return self._listed(select(JOBS).where(JOBS.c.key == key).order_by(JOBS.c.begun.desc(), JOBS.c.id))

    def tally(self, category: str) -> Tally:
        """The closed jobs of a category, counted by the database: by cause, by range, and by what was answered."""
        jobs = select(JOBS.c.range, JOBS.c.cause, func.count().label("jobs"))
        jobs = jobs.where(_teaches(category)).group_by(JOBS.c.range, JOBS.c.cause)
        said = (ANSWERS.c.article, ANSWERS.c.anchor, ANSWERS.c.answer)
        answers = select(JOBS.c.cause, *said, func.count().label("jobs")).join(JOBS, JOBS.c.id == ANSWERS.c.job)
        answers = answers.where(_teaches(category)).group_by(JOBS.c.cause, *said)
        with answered(self._engine), self._reading.connect() as connection:
            return tally_of(connection.execute(jobs).all(), connection.execute(answers).all())

    def _listed(self, query: Select[Any]) -> tuple[Job, ...]:
        with answered(self._engine), self._reading.connect() as connection:
            return tuple(whole_jobs(connection, connection.execute(query.limit(MOST_LISTED)).all()))


def _teaches(category: str) -> ColumnElement[bool]:
    """A closed job of a category; of a fault that took two visits the second alone, which knows best."""
    again = JOBS.alias("again")
    # Not correlated, so that the database makes the list once.
    later = select(RETURNS.c.follows).join(again, again.c.id == RETURNS.c.job).where(again.c.closed.is_not(None))
    return and_(JOBS.c.category == category, JOBS.c.cause.is_not(None), JOBS.c.id.not_in(later))


def _relearnt(learnt: Mapping[str, object], before: Record | None) -> Record | None:
    return with_learnt(before, learnt) if before else None


def _named(connection: Connection, job: Job) -> None:
    """Let the appointment of a call name whoever took it."""
    trail = trail_of(connection, call=job.call)
    last = trail[-1] if trail else None
    if isinstance(last, Appointment) and last.engineer != job.by:
        taken = replace(last, engineer=job.by, by=job.by, at=job.begun)
        keep_event(connection, job.call, Event(f"taken-{job.id}", job.begun, job.by, Did.BOOKED, said(taken)))


def _locked(connection: Connection, id: str) -> Row[Any]:
    # SQLite lets one transaction write at a time; PostgreSQL holds the row until the transaction ends.
    row = connection.execute(select(JOBS).where(JOBS.c.id == id).with_for_update()).first()
    if row is None:
        raise NoSuchJob
    return row

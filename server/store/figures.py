"""Which calls and jobs are counted, and which calls wait to be?"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any, Final

from sqlalchemy import (
    ColumnElement,
    Connection,
    Engine,
    Select,
    Table,
    and_,
    bindparam,
    delete,
    exists,
    func,
    insert,
    or_,
    select,
    true,
    update,
)

from kb.figures.rows import RECALL, RELAPSE, CallRow, Counted, JobRow, SlowCall
from kb.figures.weeks import Span, Week
from server.store import figure_counts
from server.store.answering import answered
from server.store.call_tables import CALLS, EVENTS
from server.store.figure_tables import FIGURE_CALLS, FIGURE_JOBS, FIGURE_PARTS, FIGURE_STOPS
from server.store.job_tables import JOBS
from server.store.tables import HOMES

LOOK_BACK: Final = 5_000
"""Events are numbered as they are sent and seen as they are kept, so as many are looked at again."""

LATE_NEWS: Final = timedelta(days=60)
"""A job that was closed without a signal may be told of so much later."""

_HOME: Final = func.coalesce(HOMES.c.replaced_by, HOMES.c.id).label("home")
_ENDING: Final = ("closed", "followed")


@dataclass(frozen=True, slots=True)
class Waiting:
    """A call or a job that has to be counted, or counted again: its id, and its home's number.

    `upto` is the last event of a call that matters here.
    """

    id: str
    home: int | None
    upto: int = 0


class Figures:
    """What the figures of one database are counted from."""

    def __init__(self, engine: Engine, reading: Engine) -> None:
        """Use the store's own connections."""
        self._engine = engine
        self._reading = reading

    def waiting(self, most: int) -> tuple[Waiting, ...]:
        """The calls that were closed, or asked about again, since they were counted, the oldest first."""
        with answered(self._engine), self._reading.connect() as connection:
            seen = connection.execute(select(func.max(FIGURE_CALLS.c.upto))).scalar() or 0
            rows = connection.execute(_waiting(seen - LOOK_BACK, most)).all()
        return tuple(Waiting(row.call, row.home, row.upto) for row in rows)

    def waiting_jobs(self, most: int) -> tuple[Waiting, ...]:
        """The jobs that were closed since they were counted, the oldest first."""
        with answered(self._engine), self._reading.connect() as connection:
            newest = connection.execute(select(func.max(FIGURE_JOBS.c.closed))).scalar()
            since = newest - LATE_NEWS if newest else None
            rows = connection.execute(_waiting_jobs(since, most)).all()
        return tuple(Waiting(row.id, row.home) for row in rows)

    def homes(self) -> tuple[int, ...]:
        """The numbers of the homes that a row may be about; they need not begin at one, nor follow each other."""
        with answered(self._engine), self._reading.connect() as connection:
            return tuple(
                connection.execute(
                    select(HOMES.c.id).where(HOMES.c.replaced_by.is_(None)).order_by(HOMES.c.id)
                ).scalars()
            )

    def add_calls(self, rows: Sequence[CallRow]) -> None:
        """Keep calls, each in place of what was kept of it before."""
        if not rows:
            return
        ids = [{"sought": row.id} for row in rows]
        stops = [_stop_row(row.id, row.week, stop.step, stop.alone) for row in rows for stop in row.stops]
        with answered(self._engine), self._engine.begin() as connection:
            connection.execute(delete(FIGURE_STOPS).where(FIGURE_STOPS.c.call == bindparam("sought")), ids)
            connection.execute(delete(FIGURE_CALLS).where(FIGURE_CALLS.c.call == bindparam("sought")), ids)
            connection.execute(insert(FIGURE_CALLS), [_call_row(row) for row in rows])
            if stops:
                connection.execute(insert(FIGURE_STOPS), stops)
            _note_back(connection, min(row.began for row in rows))

    def add_jobs(self, rows: Sequence[JobRow]) -> None:
        """Keep jobs, each in place of what was kept of it before."""
        if not rows:
            return
        ids = [{"sought": row.id} for row in rows]
        parts = [each for row in rows for each in _part_rows(row)]
        with answered(self._engine), self._engine.begin() as connection:
            connection.execute(delete(FIGURE_PARTS).where(FIGURE_PARTS.c.job == bindparam("sought")), ids)
            connection.execute(delete(FIGURE_JOBS).where(FIGURE_JOBS.c.job == bindparam("sought")), ids)
            connection.execute(insert(FIGURE_JOBS), [_job_row(row) for row in rows])
            if parts:
                connection.execute(insert(FIGURE_PARTS), parts)
            _note_returned(connection, min(row.closed for row in rows))

    def earliest(self) -> Week | None:
        """The first week in which anything was counted."""
        with answered(self._engine), self._reading.connect() as connection:
            found = [connection.execute(select(func.min(each.c.week))).scalar() for each in (FIGURE_CALLS, FIGURE_JOBS)]
        return min((Week(each) for each in found if each is not None), default=None)

    def counted(self, span: Span, now: datetime, today: date) -> Counted:
        """Everything the pictures show of some weeks, counted by the database."""
        with answered(self._engine), self._reading.connect() as connection:
            return figure_counts.counted(connection, span, now, today)

    def slow(self, span: Span) -> tuple[SlowCall, ...]:
        """The calls of some weeks whose danger questions were not over in the first minute, the newest first."""
        with answered(self._engine), self._reading.connect() as connection:
            return figure_counts.slow(connection, span)


def _waiting(after: int, most: int) -> Select[Any]:
    upto = func.max(EVENTS.c.number).label("upto")
    return (
        select(EVENTS.c.call, _HOME, upto)
        .join(CALLS, CALLS.c.id == EVENTS.c.call)
        .outerjoin(HOMES, HOMES.c.key == CALLS.c.home)
        .outerjoin(FIGURE_CALLS, FIGURE_CALLS.c.call == EVENTS.c.call)
        .where(EVENTS.c.number > after, EVENTS.c.did.in_(_ENDING), CALLS.c.closed.is_not(None))
        .where(or_(FIGURE_CALLS.c.upto.is_(None), FIGURE_CALLS.c.upto < EVENTS.c.number))
        .group_by(EVENTS.c.call, HOMES.c.replaced_by, HOMES.c.id)
        .order_by(upto)
        .limit(most)
    )


def _waiting_jobs(since: datetime | None, most: int) -> Select[Any]:
    query = (
        select(JOBS.c.id, _HOME)
        .outerjoin(HOMES, HOMES.c.key == JOBS.c.key)
        .outerjoin(FIGURE_JOBS, FIGURE_JOBS.c.job == JOBS.c.id)
        .where(JOBS.c.closed.is_not(None), FIGURE_JOBS.c.job.is_(None))
        .order_by(JOBS.c.closed, JOBS.c.id)
        .limit(most)
    )
    return query.where(JOBS.c.closed >= since) if since else query


def _note_back(connection: Connection, since: datetime) -> None:
    """A call that was solved has come back if another about the home began before it had settled."""
    later = FIGURE_CALLS.alias("later")
    again = _again(FIGURE_CALLS, later, later.c.began, FIGURE_CALLS.c.call != later.c.call)
    solved = and_(FIGURE_CALLS.c.how == "solved", FIGURE_CALLS.c.settles >= since)
    connection.execute(update(FIGURE_CALLS).where(solved, ~FIGURE_CALLS.c.back, again).values(back=true()))


def _note_returned(connection: Connection, since: datetime) -> None:
    """A job was not fixed if the same cause at the home was found again before it had settled."""
    later = FIGURE_JOBS.alias("later")
    same = and_(FIGURE_JOBS.c.cause == later.c.cause, FIGURE_JOBS.c.job != later.c.job)
    again = _again(FIGURE_JOBS, later, later.c.closed, same)
    open_ = and_(FIGURE_JOBS.c.settles >= since, ~FIGURE_JOBS.c.returned)
    connection.execute(update(FIGURE_JOBS).where(open_, again).values(returned=true()))
    earlier = FIGURE_JOBS.alias("earlier")
    before = exists().where(
        earlier.c.home_id == FIGURE_JOBS.c.home_id,
        earlier.c.cause == FIGURE_JOBS.c.cause,
        earlier.c.job != FIGURE_JOBS.c.job,
        and_(FIGURE_JOBS.c.closed > earlier.c.closed, FIGURE_JOBS.c.closed <= earlier.c.settles),
    )
    first = and_(FIGURE_JOBS.c.closed >= since, ~FIGURE_JOBS.c.returns)
    connection.execute(update(FIGURE_JOBS).where(first, before).values(returns=true()))


def _again(table: Table, later: Any, at: ColumnElement[Any], same: ColumnElement[bool]) -> ColumnElement[bool]:
    within = and_(at > table.c.closed, at <= table.c.settles)
    return exists().where(later.c.home_id == table.c.home_id, within, same)


def _call_row(row: CallRow) -> Mapping[str, Any]:
    return {
        "call": row.id,
        "began": row.began,
        "closed": row.closed,
        "settles": row.closed + RELAPSE,
        "week": row.week.number,
        "category": row.category,
        "how": row.how,
        "home_id": row.home,
        "danger": row.danger,
        "back": row.back,
        "pace": row.pace,
        "outdoor": row.outdoor,
        "upto": row.upto,
        "stuck": row.stuck[:200] or None,
        "stuck_for": row.stuck_for,
    }


def _stop_row(call: str, week: Week, step: str, alone: bool) -> Mapping[str, Any]:
    return {"call": call, "week": week.number, "step": step, "alone": alone}


def _job_row(row: JobRow) -> Mapping[str, Any]:
    first, second, *_ = (*row.expected, "", "")
    return {
        "job": row.id,
        "closed": row.closed,
        "settles": row.closed + RECALL,
        "week": row.week.number,
        "category": row.category,
        "cause": row.cause,
        "home_id": row.home,
        "first": first,
        "second": second,
        "fixed": row.fixed,
        "returned": False,
        "returns": row.returns,
        "minutes": row.minutes,
    }


def _part_rows(row: JobRow) -> Iterable[Mapping[str, Any]]:
    for part in sorted(row.taken | row.used):
        taken, used = part in row.taken, part in row.used
        yield {"job": row.id, "part": part, "week": row.week.number, "taken": taken, "used": used}

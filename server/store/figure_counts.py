"""How are calls, jobs and services counted by the database itself, so that no row of them leaves it?"""

from collections.abc import Sequence
from datetime import date, datetime, timedelta
from typing import Any, Final

from sqlalchemy import ColumnElement, Connection, Table, and_, case, func, or_, select, true, union_all

from kb.figures.bars import OFTEN
from kb.figures.rows import (
    FIRST_MINUTE,
    LATE,
    Caller,
    CallsAlike,
    CausesAlike,
    Counted,
    JobsAlike,
    PartsAlike,
    SlowCall,
    StopsAlike,
)
from kb.figures.weeks import Span, Week
from server.store.figure_tables import FIGURE_CALLS, FIGURE_JOBS, FIGURE_PARTS, FIGURE_STOPS
from server.store.register.tables import APPLIANCES
from server.store.tables import HOMES

YEAR: Final = timedelta(days=365)
MOST: Final = 50
"""How many homes are named at most."""


def counted(connection: Connection, span: Span, now: datetime, today: date) -> Counted:
    """Everything the pictures show of some weeks."""
    callers, homes = _callers(connection, now)
    overdue, serviced = _overdue(connection, today)
    return Counted(
        _calls(connection, span, now),
        _stops(connection, span),
        _jobs(connection, span, now),
        _parts(connection, span),
        _causes(connection, span),
        callers,
        homes,
        overdue,
        serviced,
    )


def slow(connection: Connection, span: Span) -> tuple[SlowCall, ...]:
    """The calls of some weeks whose danger questions were not over in the first minute, the newest first."""
    table = FIGURE_CALLS.c
    late = or_(table.danger.is_(None), table.danger > FIRST_MINUTE)
    query = (
        select(table.began, table.danger, func.coalesce(table.stuck, ""), table.stuck_for)
        .where(_within(FIGURE_CALLS, span), late)
        .order_by(table.began.desc(), table.call)
    )
    return tuple(SlowCall(*row) for row in connection.execute(query))


def _calls(connection: Connection, span: Span, now: datetime) -> tuple[CallsAlike, ...]:
    table = FIGURE_CALLS.c
    solved = table.how == "solved"
    settled = and_(solved, table.settles <= now)
    query = (
        select(
            table.week,
            table.category,
            func.count(),
            _times(solved),
            _times(settled),
            _times(and_(settled, table.back)),
            _times(table.danger <= FIRST_MINUTE),
            func.min(table.outdoor),
        )
        .where(_within(FIGURE_CALLS, span))
        .group_by(table.week, table.category)
    )
    return tuple(CallsAlike(Week(week), *rest) for week, *rest in connection.execute(query))


def _jobs(connection: Connection, span: Span, now: datetime) -> tuple[JobsAlike, ...]:
    table = FIGURE_JOBS.c
    settled = and_(table.settles <= now, ~table.returns)
    query = (
        select(
            table.week,
            func.count(),
            _times(settled),
            _times(and_(settled, table.fixed, ~table.returned)),
            func.count(table.minutes),
            func.coalesce(func.sum(table.minutes), 0),
        )
        .where(_within(FIGURE_JOBS, span))
        .group_by(table.week)
    )
    return tuple(JobsAlike(Week(week), *rest) for week, *rest in connection.execute(query))


def _stops(connection: Connection, span: Span) -> tuple[StopsAlike, ...]:
    table = FIGURE_STOPS.c
    query = select(table.step, _times(table.alone), _times(~table.alone)).where(_within(FIGURE_STOPS, span))
    return tuple(StopsAlike(*row) for row in connection.execute(query.group_by(table.step)))


def _parts(connection: Connection, span: Span) -> tuple[PartsAlike, ...]:
    table = FIGURE_PARTS.c
    query = select(
        table.part, _times(table.taken), _times(and_(table.taken, table.used)), _times(and_(~table.taken, table.used))
    ).where(_within(FIGURE_PARTS, span))
    return tuple(PartsAlike(*row) for row in connection.execute(query.group_by(table.part)))


def _causes(connection: Connection, span: Span) -> tuple[CausesAlike, ...]:
    table = FIGURE_JOBS.c
    columns = (table.first, table.second, table.cause)
    query = select(*columns, func.count()).where(_within(FIGURE_JOBS, span)).group_by(*columns)
    return tuple(CausesAlike(*row) for row in connection.execute(query))


def _callers(connection: Connection, now: datetime) -> tuple[tuple[Caller, ...], int]:
    """The homes that called often in the last year, and how many called at all."""
    table = FIGURE_CALLS.c
    each = (
        select(table.home_id, func.count().label("calls"))
        .where(table.home_id.is_not(None), table.began > now - YEAR)
        .group_by(table.home_id)
        .cte("each_home")
    )
    homes = connection.execute(select(func.count()).select_from(each)).scalar_one()
    often = (
        select(HOMES.c.key, HOMES.c.appliance, each.c.calls)
        .join(each, each.c.home_id == HOMES.c.id)
        .where(each.c.calls >= OFTEN)
        .order_by(each.c.calls.desc(), HOMES.c.key)
        .limit(MOST)
    )
    return tuple(Caller(*row) for row in connection.execute(often)), homes


def _overdue(connection: Connection, today: date) -> tuple[tuple[int, ...], int]:
    """The services that should have been done by today, by how late they are, and all that have a date."""
    earlier = APPLIANCES.alias("earlier")
    another = select(earlier.c.id).where(earlier.c.home_id == APPLIANCES.c.home_id, earlier.c.id < APPLIANCES.c.id)
    # What a home's own row tells of its first appliance goes before what the appliance's row tells.
    days = union_all(
        select(HOMES.c.next_service.label("day")).where(HOMES.c.revoked.is_(None)),
        select(APPLIANCES.c.next_service)
        .join(HOMES, HOMES.c.id == APPLIANCES.c.home_id)
        .where(HOMES.c.revoked.is_(None), another.exists()),
    ).subquery()
    columns = [_times(each) for each in _how_late(days.c.day, today)]
    dated, *late = connection.execute(select(func.count(days.c.day), *columns)).one()
    return tuple(late), dated


def _how_late(day: ColumnElement[Any], today: date) -> Sequence[ColumnElement[bool]]:
    bounds = [today, *(today - timedelta(days=most) for most, _ in LATE if most is not None)]
    nearer = zip(bounds, [*bounds[1:], None], strict=True)
    return [and_(day < before, day >= after if after else true()) for before, after in nearer]


def _times(what: ColumnElement[bool]) -> ColumnElement[int]:
    return func.coalesce(func.sum(case((what, 1), else_=0)), 0)


def _within(table: Table, span: Span) -> ColumnElement[bool]:
    return table.c.week.between(span.first.number, span.last.number)

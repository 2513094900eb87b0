"""Which homes are chosen by range, by what is due, by place and by their cards?"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Any, Final

from sqlalchemy import ColumnElement, Connection, Select, and_, exists, func, or_, select

from kb.register import NO_RANGE, Chosen, Month
from server.store.register.tables import ADDRESSES, ALARMS, APPLIANCES, PRINTED_CARDS
from server.store.tables import HOMES

_ENDS: Final = select(func.min(ALARMS.c.ends)).where(ALARMS.c.home_id == HOMES.c.id).correlate(HOMES).scalar_subquery()
_ROWS: Final = (
    select(
        HOMES.c.id,
        HOMES.c.key,
        HOMES.c.appliance,
        HOMES.c.next_service,
        _ENDS.label("alarm"),
        ADDRESSES.c.lines,
        ADDRESSES.c.town,
        ADDRESSES.c.postcode,
    )
    .outerjoin(ADDRESSES, ADDRESSES.c.home_id == HOMES.c.id)
    .order_by(ADDRESSES.c.compact.nulls_last(), HOMES.c.id)
)


@dataclass(frozen=True, slots=True)
class ChosenHome:
    """A home as a list shows it: where it is, what the card is for, and the next days; nothing about people."""

    home: int
    key: str
    appliance: str
    next_service: date | None
    alarm_ends: date | None
    lines: tuple[str, ...]
    town: str
    postcode: str


def count(connection: Connection, chosen: Chosen) -> int:
    """How many homes are chosen."""
    joined = HOMES.outerjoin(ADDRESSES, ADDRESSES.c.home_id == HOMES.c.id)
    return connection.execute(select(func.count()).select_from(joined).where(*_wishes(chosen))).scalar_one()


def some(connection: Connection, chosen: Chosen, most: int, after: int = 0) -> tuple[ChosenHome, ...]:
    """So many of the homes that are chosen, by postcode, `after` so many before them."""
    rows = connection.execute(_ROWS.where(*_wishes(chosen)).limit(most).offset(after)).all()
    return tuple(
        ChosenHome(
            row.id,
            row.key,
            row.appliance,
            row.next_service,
            row.alarm,
            tuple(row.lines or ()),
            row.town or "",
            row.postcode or "",
        )
        for row in rows
    )


def numbers(connection: Connection, chosen: Chosen, most: int | None = None, after: int = 0) -> tuple[int, ...]:
    """The numbers of the homes that are chosen, by postcode."""
    wanted: Select[Any] = _ROWS.with_only_columns(HOMES.c.id).where(*_wishes(chosen)).limit(most).offset(after)
    return tuple(connection.execute(wanted).scalars())


def _wishes(chosen: Chosen) -> Iterator[ColumnElement[bool]]:
    yield HOMES.c.revoked.is_(None)
    if chosen.range:
        yield HOMES.c.range == ("" if chosen.range == NO_RANGE else chosen.range)
    if chosen.service:
        yield or_(
            _by(HOMES.c.next_service, chosen.service), _any(APPLIANCES, APPLIANCES.c.next_service, chosen.service)
        )
    if chosen.alarm:
        yield _any(ALARMS, ALARMS.c.ends, chosen.alarm)
    if chosen.place:
        yield _there(chosen)
    if chosen.card:
        printed = exists().where(PRINTED_CARDS.c.home_id == HOMES.c.id).correlate(HOMES)
        yield printed if chosen.card == "some" else ~printed


def _by(day: ColumnElement[Any], month: Month) -> ColumnElement[bool]:
    return day < month.after(1).first


def _any(table: Any, day: ColumnElement[Any], month: Month) -> ColumnElement[bool]:
    return exists().where(table.c.home_id == HOMES.c.id, _by(day, month)).correlate(HOMES)


def _there(chosen: Chosen) -> ColumnElement[bool]:
    """At a postcode or in a town that begins so; whatever has no letter or figure in it is nowhere."""
    if not chosen.postcode:
        return HOMES.c.id < 0
    last = chosen.postcode + "\U0010ffff"
    begins = and_(ADDRESSES.c.compact >= chosen.postcode, ADDRESSES.c.compact < last)
    return or_(begins, func.lower(ADDRESSES.c.town).startswith(chosen.place.strip().lower(), autoescape=True))

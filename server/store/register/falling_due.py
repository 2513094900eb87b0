"""What falls due between two days, at which homes?"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import date, timedelta
from types import MappingProxyType
from typing import Any, Final

from sqlalchemy import ColumnElement, Connection, FromClause, Row, Select, bindparam, exists, null, select

from kb.register import ALARMS as ALARM_WORDS
from kb.register import NEEDS as NEED_WORDS
from kb.register import Due, Need, review_due
from server.store.register.tables import ADDRESSES, ALARMS, APPLIANCES, NEEDS, PEOPLE
from server.store.tables import HOMES

MOST: Final = 5_000
"""How much of one kind is looked up at most."""

_ABOUT_A_YEAR: Final = timedelta(days=367)
_PLACE: Final = null().label("place")
_PERSON: Final = null().label("person")


def _due(
    day: ColumnElement[Any], what: ColumnElement[Any], source: FromClause, *more: ColumnElement[Any]
) -> Select[Any]:
    where = (ADDRESSES.c.lines, ADDRESSES.c.town, ADDRESSES.c.postcode)
    return (
        select(HOMES.c.id, HOMES.c.key, day.label("day"), what.label("what"), *more, *where)
        .select_from(source.outerjoin(ADDRESSES, ADDRESSES.c.home_id == HOMES.c.id))
        .where(HOMES.c.revoked.is_(None), day >= bindparam("first"), day < bindparam("end"))
        .order_by(day, HOMES.c.id)
        .limit(MOST)
    )


_FITTED: Final = HOMES.join(APPLIANCES, APPLIANCES.c.home_id == HOMES.c.id)
_HANGING: Final = HOMES.join(ALARMS, ALARMS.c.home_id == HOMES.c.id)
_NEEDED: Final = HOMES.join(PEOPLE, PEOPLE.c.home_id == HOMES.c.id).join(NEEDS, NEEDS.c.person_id == PEOPLE.c.id)
_NEED: Final = (_PLACE, PEOPLE.c.id.label("person"), NEEDS.c.consented, NEEDS.c.reviewed)
_EARLIER: Final = APPLIANCES.alias("earlier")
_ANOTHER: Final = exists().where(_EARLIER.c.home_id == APPLIANCES.c.home_id, _EARLIER.c.id < APPLIANCES.c.id)

_ROWS: Final[Mapping[str, tuple[Select[Any], ...]]] = MappingProxyType(
    {
        # What the home's own row tells of its first appliance goes before what the appliance's row tells.
        "service": (
            _due(HOMES.c.next_service, HOMES.c.appliance, HOMES, _PLACE, _PERSON),
            _due(APPLIANCES.c.next_service, APPLIANCES.c.plate, _FITTED, _PLACE, _PERSON).where(_ANOTHER),
        ),
        "alarm": (_due(ALARMS.c.ends, ALARMS.c.kind, _HANGING, ALARMS.c.place, _PERSON),),
        "warranty": (_due(APPLIANCES.c.warranty_ends, APPLIANCES.c.plate, _FITTED, _PLACE, _PERSON),),
        "review": (_due(NEEDS.c.due, NEEDS.c.kind, _NEEDED, *_NEED),),
        "consent": (_due(NEEDS.c.consented, NEEDS.c.kind, _NEEDED, *_NEED),),
    }
)


def due(connection: Connection, kinds: Iterable[str], first: date, end: date) -> tuple[Due, ...]:
    """What of these kinds falls due from the first day up to the end, which is left out; kind by kind, by day."""
    return tuple(each for kind in kinds for each in sorted(_of_kind(connection, kind, first, end), key=_by_day))


def _of_kind(connection: Connection, kind: str, first: date, end: date) -> Iterator[Due]:
    if kind == "consent":
        yield from _old_consents(connection, first, end)
        return
    for statement in _ROWS[kind]:
        for row in connection.execute(statement, {"first": first, "end": end}):
            yield _told(kind, row, row.day)


def _old_consents(connection: Connection, first: date, end: date) -> Iterator[Due]:
    """Consents that turn a year old, unless the need itself is to be asked about that very day."""
    (statement,) = _ROWS["consent"]
    for row in connection.execute(statement, {"first": first - _ABOUT_A_YEAR, "end": end}):
        old = review_due(Need(row.what, row.consented))
        if first <= old < end and old != review_due(Need(row.what, row.consented, row.reviewed)):
            yield _told("consent", row, old)


def _told(kind: str, row: Row[Any], day: date) -> Due:
    return Due(
        kind,
        row.key,
        row.id,
        day,
        _WORDS[kind](row),
        tuple(row.lines or ()),
        row.town or "",
        row.postcode or "",
        row.person,
    )


_WORDS: Final[Mapping[str, Callable[[Row[Any]], str]]] = MappingProxyType(
    {
        "service": lambda row: str(row.what),
        "alarm": lambda row: f"{ALARM_WORDS.get(row.what, row.what)}, {row.place}",
        "warranty": lambda row: str(row.what),
        "review": lambda row: NEED_WORDS.get(row.what, row.what),
        "consent": lambda row: NEED_WORDS.get(row.what, row.what),
    }
)


def _by_day(due: Due) -> tuple[date, int]:
    return due.day, due.home

"""Which needs must be asked about again, since a year has gone by?"""

from dataclasses import dataclass
from datetime import date
from typing import Final

from sqlalchemy import Connection, bindparam, select

from server.store.register.audit import Did, trace
from server.store.register.tables import NEEDS, PEOPLE
from server.store.tables import HOMES

_DUE: Final = (
    select(HOMES.c.key, PEOPLE.c.home_id, NEEDS.c.person_id, NEEDS.c.kind, NEEDS.c.due)
    .join(PEOPLE, PEOPLE.c.id == NEEDS.c.person_id)
    .join(HOMES, HOMES.c.id == PEOPLE.c.home_id)
    .where(NEEDS.c.due <= bindparam("until"))
    .order_by(NEEDS.c.due, NEEDS.c.id)
    .limit(bindparam("most"))
)


@dataclass(frozen=True, slots=True)
class Review:
    """A need to ask about again: of which home, which of its people by their number, which need, and by when."""

    key: str
    person: int
    kind: str
    due: date


def reviews(connection: Connection, until: date, most: int, by: str) -> tuple[Review, ...]:
    """The needs due by a day, the longest due first."""
    rows = connection.execute(_DUE, {"until": until, "most": most}).all()
    trace(connection, by, Did.READ, dict.fromkeys(row.home_id for row in rows), ["people.needs"])
    return tuple(Review(row.key, row.person_id, row.kind, row.due) for row in rows)

"""Which cards were printed, of what, and for which homes is that no longer so?"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Final

from sqlalchemy import Connection, Engine, Row, bindparam, select

from kb.home import Home
from server.store.homes import home_of
from server.store.register.audit import Did, trace
from server.store.register.reading import row_of_home
from server.store.register.tables import PRINTED_CARDS
from server.store.tables import HOMES
from server.store.upsert import upsert

CHUNK: Final = 500
"""How many homes are held at a time."""

_CARD: Final = PRINTED_CARDS.c
_NEXT: Final = (
    select(
        HOMES,
        _CARD.id.label("card"),
        _CARD.key.label("printed_key"),
        _CARD.size,
        _CARD.fingerprint,
        _CARD.printed,
    )
    .join(HOMES, HOMES.c.id == _CARD.home_id)
    .where(_CARD.id > bindparam("after"), HOMES.c.revoked.is_(None))
    .order_by(_CARD.id)
    .limit(CHUNK)
)


@dataclass(frozen=True, slots=True)
class Printed:
    """A card that was printed: of which key, in which size, when, and the fingerprint of all that stood on it."""

    key: str
    size: str
    fingerprint: str
    when: datetime


def note(connection: Connection, card: Printed, by: str) -> bool:
    """Remember a card as the last of its size for its home; whether its key opens one."""
    home = row_of_home(connection, card.key)
    if home is None:
        return False
    row = {
        "home_id": home.id,
        "size": card.size,
        "key": card.key,
        "fingerprint": card.fingerprint,
        "printed": card.when,
    }
    connection.execute(upsert(PRINTED_CARDS, connection.dialect.name, ("home_id", "size")), row)
    trace(connection, by, Did.PRINTED, [home.id], [f"card.{card.size}"])
    return True


def walk(reading: Engine) -> Iterator[tuple[Home, Printed]]:
    """Every home that has a card, as it is now, with the last card of each size; some hundreds are held at a time."""
    after = 0
    while True:
        with reading.connect() as connection:
            rows = connection.execute(_NEXT, {"after": after}).all()
        yield from ((home_of(row), _printed(row)) for row in rows)
        if len(rows) < CHUNK:
            return
        after = rows[-1].card


def of_home(connection: Connection, home_id: int) -> tuple[Printed, ...]:
    """The cards of a home, one of each size."""
    rows: Iterable[Row[Any]] = connection.execute(
        select(PRINTED_CARDS, _CARD.key.label("printed_key")).where(_CARD.home_id == home_id).order_by(_CARD.id)
    )
    return tuple(_printed(row) for row in rows)


def _printed(row: Row[Any]) -> Printed:
    return Printed(row.printed_key, row.size, row.fingerprint, row.printed)

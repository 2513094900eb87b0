"""A home as a row, and a row as a home."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from datetime import date
from typing import Any, Final

from sqlalchemy import Insert, Row, String, bindparam, select, update

from kb.facts import GaugeMarks, Known
from kb.home import Home
from server.store.errors import DamagedHome
from server.store.tables import HOMES
from server.store.upsert import upsert

BY_KEY: Final = select(HOMES).where(HOMES.c.key == bindparam("sought"))
_OWN: Final = HOMES.alias("own")
BY_OLD_KEY: Final = select(_OWN).join(HOMES, HOMES.c.replaced_by == _OWN.c.id).where(HOMES.c.key == bindparam("sought"))
LIVE: Final = select(HOMES).where(HOMES.c.revoked.is_(None)).order_by(HOMES.c.id)
NAMED: Final = LIVE.where(HOMES.c.appliance.ilike(bindparam("words"))).limit(bindparam("most"))
REVOKE: Final = update(HOMES).where(HOMES.c.key == bindparam("sought")).where(HOMES.c.revoked.is_(None))


@dataclass(frozen=True, slots=True)
class Revoked:
    """A key that once opened a home's page, and the day it stopped."""

    key: str
    on: date


def put_statement(kind: str) -> Insert:
    """What adds a home to a kind of database, or changes the one with the same key; a withdrawn key stays so."""
    return upsert(HOMES, kind, ("key",), ("revoked", "replaced_by"))


def row_of(home: Home) -> Mapping[str, Any]:
    """What is written for a home; raises ValueError for words that no database takes, or that one of them would not."""
    row = {
        "key": home.key,
        "range": home.range,
        "appliance": home.appliance,
        "facts": dict(home.known.facts),
        "marks": asdict(home.known.marks),
        "limits": dict(home.known.limits),
        "places": dict(home.places),
        "fitted": home.fitted,
        "next_service": home.next_service,
    }
    for column in HOMES.c:
        if isinstance(column.type, String) and column.name in row:
            _refuse_unkept(column.name, str(row[column.name]), column.type.length or 0)
    return row


def _refuse_unkept(field: str, words: str, longest: int) -> None:
    if len(words) > longest:
        raise ValueError(f"Expected at most {longest} characters for {field}, found {len(words)}. Shorten it.")
    if "\0" in words or any("\ud800" <= sign <= "\udfff" for sign in words):
        raise ValueError(f"Expected {field} in plain words, found {words!r}. Take out what cannot be printed.")


def home_of(row: Row[Any]) -> Home:
    """The home that was written; raises DamagedHome if nobody could have written it so."""
    try:
        return Home(
            key=row.key,
            range=row.range,
            appliance=row.appliance,
            known=Known(row.facts, GaugeMarks(**row.marks), row.limits),
            places=row.places,
            fitted=row.fitted,
            next_service=row.next_service,
        )
    except (ValueError, TypeError, AttributeError) as error:
        raise DamagedHome(
            f"Expected a home in row {row.id} of the table homes, found one that cannot be used: {error} "
            "Put that home in again, or restore the database from a backup."
        ) from error

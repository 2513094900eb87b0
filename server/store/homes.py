"""A home as a row, and a row as a home."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from datetime import date
from typing import Any, Final

from sqlalchemy import Row, bindparam, insert, select, update

from kb.facts import GaugeMarks, Known
from kb.home import Home
from server.store.errors import DamagedHome
from server.store.tables import HOMES

BY_KEY: Final = select(HOMES).where(HOMES.c.key == bindparam("sought"))
LIVE: Final = select(HOMES).where(HOMES.c.revoked.is_(None)).order_by(HOMES.c.id)
ADD: Final = insert(HOMES)
CHANGE: Final = update(HOMES).where(HOMES.c.key == bindparam("sought"))
REVOKE: Final = CHANGE.where(HOMES.c.revoked.is_(None))


@dataclass(frozen=True, slots=True)
class Revoked:
    """A key that once opened a home's page, and the day it stopped."""

    key: str
    on: date


def row_of(home: Home) -> Mapping[str, Any]:
    """What is written for a home."""
    return {
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

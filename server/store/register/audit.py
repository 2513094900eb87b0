"""Who saw or changed what of which home, and when?"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from enum import StrEnum
from typing import Final

from sqlalchemy import Connection, insert, select

from server.store.register.tables import AUDIT
from server.store.tables import HOMES

_ADD: Final = insert(AUDIT)


class Did(StrEnum):
    """Everything that leaves a trace."""

    FOUND = "found"
    READ = "read"
    CHANGED = "changed"
    NEW_KEY = "new-key"
    PRINTED = "printed"
    KEPT = "kept"
    SHOWN = "shown"
    ERASED = "erased"


@dataclass(frozen=True, slots=True)
class Entry:
    """One trace: the account, what it did, and the names of the fields; never what stood in them."""

    at: datetime
    by: str
    did: Did
    fields: tuple[str, ...]


def named(by: str) -> str:
    """The account's name; raises ValueError where there is none, since then nobody would answer for it."""
    if not by.strip():
        raise ValueError("Expected the name of the account that asks, found none. Hand it on from the sign-in.")
    return by


def trace_request(
    connection: Connection, by: str, did: Did, requests: Mapping[int, int | None], fields: Sequence[str]
) -> None:
    """The same of requests to call: their numbers, each with the number of the home it is about, where it is known."""
    at = datetime.now(UTC)
    rows = [
        {"at": at, "by": by, "did": did.value, "home_id": home, "fields": list(fields), "request": request}
        for request, home in requests.items()
    ]
    if rows:
        connection.execute(_ADD, rows)


def trail_of_request(connection: Connection, request: int) -> tuple[Entry, ...]:
    """Every trace of a request, the oldest first."""
    rows = connection.execute(select(AUDIT).where(AUDIT.c.request == request).order_by(AUDIT.c.id)).all()
    return tuple(Entry(row.at, row.by, Did(row.did), tuple(row.fields)) for row in rows)


def trace(connection: Connection, by: str, did: Did, homes: Iterable[int], fields: Sequence[str]) -> None:
    """Write down what an account does, in the transaction in which it does it."""
    at = datetime.now(UTC)
    rows = [{"at": at, "by": by, "did": did.value, "home_id": home, "fields": list(fields)} for home in homes]
    if rows:
        connection.execute(_ADD, rows)


def trail(connection: Connection, home_id: int) -> tuple[Entry, ...]:
    """Every trace of a home, the oldest first."""
    rows = connection.execute(select(AUDIT).where(AUDIT.c.home_id == home_id).order_by(AUDIT.c.id)).all()
    return tuple(Entry(row.at, row.by, Did(row.did), tuple(row.fields)) for row in rows)


@dataclass(frozen=True, slots=True)
class Look:
    """A trace with its number, and the key and the appliance of the home it is of; nothing about people."""

    number: int
    key: str
    appliance: str
    entry: Entry


def looks(connection: Connection, by: str, most: int, before: int | None) -> tuple[Look, ...]:
    """The newest traces of an account, or with no name of all, from one number back."""
    wanted = (
        select(AUDIT, HOMES.c.key, HOMES.c.appliance)
        .outerjoin(HOMES, HOMES.c.id == AUDIT.c.home_id)
        .order_by(AUDIT.c.id.desc())
        .limit(most)
    )
    wanted = wanted.where(AUDIT.c.by == by) if by else wanted
    wanted = wanted.where(AUDIT.c.id < before) if before is not None else wanted
    return tuple(
        Look(row.id, row.key or "", row.appliance or "", Entry(row.at, row.by, Did(row.did), tuple(row.fields)))
        for row in connection.execute(wanted)
    )

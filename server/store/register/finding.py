"""Which homes may somebody mean who types a few signs?

Every reading of what was typed is one range of one index, or one look into an index of three-letter pieces, and takes
no more homes than are shown; what fits best is looked for first, so nothing is fetched to be sorted.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any, Final

from sqlalchemy import ColumnElement, Connection, Select, Table, and_, bindparam, column, func, select, text
from sqlalchemy import table as sqlite_table

from kb.register import Asked
from server.store.register.tables import ADDRESSES, PEOPLE, PHONES
from server.store.tables import HOMES


def _in_range(column: ColumnElement[str]) -> ColumnElement[bool]:
    """A range of the index; LIKE would have no use for it unless the database sorts by bytes throughout."""
    return and_(column >= bindparam("low"), column < bindparam("high"))


_BY_INDEX_ALONE: Final = text("SET LOCAL enable_seqscan = off")
_BY_KEY: Final = (
    select(func.coalesce(HOMES.c.replaced_by, HOMES.c.id))
    .where(HOMES.c.key == bindparam("sought"))
    .limit(bindparam("most"))
)
_BY_PHONE: Final = (
    select(PEOPLE.c.home_id)
    .join(PHONES, PHONES.c.person_id == PEOPLE.c.id)
    .where(_in_range(PHONES.c.backwards))
    .order_by(PHONES.c.backwards)
    .limit(bindparam("most"))
)
_BY_POSTCODE: Final = (
    select(ADDRESSES.c.home_id)
    .where(_in_range(ADDRESSES.c.compact))
    .order_by(ADDRESSES.c.compact)
    .limit(bindparam("most"))
)
_NAMES: Final = (
    select(PEOPLE.c.home_id, PEOPLE.c.name)
    .where(PEOPLE.c.home_id.in_(bindparam("found", expanding=True)))
    .order_by(PEOPLE.c.id)
)
_HOMES: Final = (
    select(HOMES.c.id, HOMES.c.key, ADDRESSES)
    .outerjoin(ADDRESSES, ADDRESSES.c.home_id == HOMES.c.id)
    .where(HOMES.c.id.in_(bindparam("found", expanding=True)))
)


@dataclass(frozen=True, slots=True)
class Hit:
    """A home that was found: by what, and enough to tell it from the others.

    `key` is the one that opens it now; `names` are its people's.
    """

    key: str
    by: str
    names: tuple[str, ...]
    lines: tuple[str, ...]
    town: str
    postcode: str


def find(connection: Connection, asked: Asked, limit: int) -> dict[int, str]:
    """The numbers of the homes that fit, the best first, and by what each was found."""
    if connection.dialect.name == "postgresql":
        # PostgreSQL guesses how often three letters occur and would rather read the whole table for a few homes.
        connection.execute(_BY_INDEX_ALONE)
    found: dict[int, str] = {}
    for by, statement, sought in _looks(connection.dialect.name, asked):
        for home_id in connection.execute(statement, {"most": limit, **sought}).scalars():
            found.setdefault(home_id, by)
        if len(found) >= limit:
            break
    return dict(list(found.items())[:limit])


def hits(connection: Connection, found: dict[int, str]) -> tuple[Hit, ...]:
    """What is shown of the homes that were found, in their order."""
    names: dict[int, list[str]] = {}
    for row in connection.execute(_NAMES, {"found": list(found)}):
        names.setdefault(row.home_id, []).append(row.name)
    rows = {row.id: row for row in connection.execute(_HOMES, {"found": list(found)})}
    return tuple(
        Hit(
            rows[id].key,
            by,
            tuple(names.get(id, ())),
            tuple(rows[id].lines or ()),
            rows[id].town or "",
            rows[id].postcode or "",
        )
        for id, by in found.items()
    )


def _looks(kind: str, asked: Asked) -> Iterator[tuple[str, Select[Any], Mapping[str, str]]]:
    if asked.key:
        yield "key", _BY_KEY, {"sought": asked.key}
    if asked.digits:
        yield "phone", _BY_PHONE, _range(asked.digits[::-1])
    if asked.postcode:
        yield "postcode", _BY_POSTCODE, _range(asked.postcode)
    for by, table in (("name", PEOPLE), ("street", ADDRESSES)):
        for pieces in _pieces(asked.words):
            yield by, _holding(kind, table, len(pieces)), _sought(kind, pieces)


def _range(beginning: str) -> Mapping[str, str]:
    """The first text with a beginning, and the first after all that have it."""
    return {"low": beginning, "high": beginning[:-1] + chr(ord(beginning[-1]) + 1)}


def _pieces(words: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    """What must stand in a folded text: whole words, beginnings of words, then anything; three signs at least each."""
    if not words:
        return
    yield tuple(f" {word} " for word in words)
    yield tuple(f" {word}" for word in words if len(word) > 1)
    yield tuple(word if len(word) > 2 else f" {word}" for word in words if len(word) > 1)


def _sought(kind: str, pieces: tuple[str, ...]) -> Mapping[str, str]:
    if kind == "sqlite":
        return {"pieces": " AND ".join(f'"{piece}"' for piece in pieces)}
    return {f"piece{number}": f"%{piece}%" for number, piece in enumerate(pieces)}


@cache
def _holding(kind: str, table: Table, pieces: int) -> Select[Any]:
    """The homes with a row that holds all of so many pieces."""
    if kind == "postgresql":
        held = (table.c.folded.like(bindparam(f"piece{number}")) for number in range(pieces))
        return select(table.c.home_id).where(*held).limit(bindparam("most"))
    index = f"seek_{table.name}"
    seek = sqlite_table(index, column("rowid"))
    found = seek.join(table, table.primary_key.columns[0] == seek.c.rowid)
    return select(table.c.home_id).select_from(found).where(text(f"{index} MATCH :pieces")).limit(bindparam("most"))

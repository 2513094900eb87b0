"""Which homes may somebody mean who types a few signs?

Every reading of what was typed is one range of one index, or one look into an index of three-letter pieces, and takes
no more homes than are shown; what fits best is looked for first, so nothing is fetched to be sorted.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from sqlalchemy import ColumnElement, Connection, Select, Table, and_, column, literal_column, select, text
from sqlalchemy import table as sqlite_table

from kb.register import Asked
from server.store.register.tables import ADDRESSES, PEOPLE, PHONES
from server.store.tables import HOMES


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
        connection.execute(text("SET LOCAL enable_seqscan = off"))
    found: dict[int, str] = {}
    for by, statement in _statements(connection, asked):
        for home_id in connection.execute(statement.limit(limit)).scalars():
            found.setdefault(home_id, by)
        if len(found) >= limit:
            break
    return dict(list(found.items())[:limit])


def hits(connection: Connection, found: dict[int, str]) -> tuple[Hit, ...]:
    """What is shown of the homes that were found, in their order."""
    names: dict[int, list[str]] = {}
    people = select(PEOPLE.c.home_id, PEOPLE.c.name).where(PEOPLE.c.home_id.in_(found)).order_by(PEOPLE.c.id)
    for row in connection.execute(people):
        names.setdefault(row.home_id, []).append(row.name)
    homes = select(HOMES.c.id, HOMES.c.key, ADDRESSES).outerjoin(ADDRESSES, ADDRESSES.c.home_id == HOMES.c.id)
    rows = {row.id: row for row in connection.execute(homes.where(HOMES.c.id.in_(found)))}
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


def _statements(connection: Connection, asked: Asked) -> Iterator[tuple[str, Select[Any]]]:
    if asked.key:
        yield "key", _by_key(asked.key)
    if asked.digits:
        wanted = select(PEOPLE.c.home_id).join(PHONES, PHONES.c.person_id == PEOPLE.c.id)
        backwards = PHONES.c.backwards
        yield "phone", wanted.where(_begins(backwards, asked.digits[::-1])).order_by(backwards)
    if asked.postcode:
        compact = ADDRESSES.c.compact
        yield "postcode", select(ADDRESSES.c.home_id).where(_begins(compact, asked.postcode)).order_by(compact)
    for pieces in _pieces(asked.words):
        yield "name", _holding(connection, PEOPLE, pieces)
    for pieces in _pieces(asked.words):
        yield "street", _holding(connection, ADDRESSES, pieces)


def _by_key(key: str) -> Select[Any]:
    """The home of a key, also of one that was replaced."""
    return select(literal_column("coalesce(replaced_by, id)")).select_from(HOMES).where(HOMES.c.key == key)


def _begins(column: ColumnElement[str], beginning: str) -> ColumnElement[bool]:
    """A range of the index; LIKE would have no use for it unless the database sorts by bytes throughout."""
    return and_(column >= beginning, column < beginning[:-1] + chr(ord(beginning[-1]) + 1))


def _pieces(words: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    """What must stand in a folded text: whole words, beginnings of words, then anything; three signs at least each."""
    if not words:
        return
    yield tuple(f" {word} " for word in words)
    yield tuple(f" {word}" for word in words if len(word) > 1)
    yield tuple(word if len(word) > 2 else f" {word}" for word in words if len(word) > 1)


def _holding(connection: Connection, table: Table, pieces: tuple[str, ...]) -> Select[Any]:
    wanted = select(table.c.home_id)
    if connection.dialect.name == "postgresql":
        return wanted.where(and_(*(table.c.folded.like(f"%{piece}%") for piece in pieces)))
    index = f"seek_{table.name}"
    seek = sqlite_table(index, column("rowid"))
    found = seek.join(table, table.primary_key.columns[0] == seek.c.rowid)
    match = text(f"{index} MATCH :pieces").bindparams(pieces=" AND ".join(f'"{piece}"' for piece in pieces))
    return wanted.select_from(found).where(match)

"""Which homes may somebody mean who types a few signs?

Every reading of what was typed is one range of one index and takes no more homes than are shown; what fits best is
looked for first, so nothing is fetched to be sorted.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any, Final

from sqlalchemy import ColumnElement, Connection, Integer, Select, and_, bindparam, func, select

from kb.register import Asked
from server.store.register.seeking import NAME, SHORTEST, STREET
from server.store.register.tables import ADDRESSES, PEOPLE, PHONES, SEEK, SEEK_WORDS
from server.store.tables import HOMES


def _in_range(column: ColumnElement[str]) -> ColumnElement[bool]:
    """A range of the index; LIKE would have no use for it unless the database sorts by bytes throughout."""
    return and_(column >= bindparam("low"), column < bindparam("high"))


_MOST: Final = bindparam("most", type_=Integer)

_PER_HOME: Final = 2
"""How many rows of one home may fit, at a guess, so that enough homes are among what is fetched."""

_LOOKED_THROUGH: Final = 2_000
"""How many rows with one of several words are looked through for the others; who has more types more."""

_FEW_WORDS: Final = 40
"""How many words that hold a piece are looked up."""

_BY_KEY: Final = (
    select(func.coalesce(HOMES.c.replaced_by, HOMES.c.id)).where(HOMES.c.key == bindparam("sought")).limit(_MOST)
)
_BY_KEY_START: Final = (
    select(func.coalesce(HOMES.c.replaced_by, HOMES.c.id))
    .where(_in_range(HOMES.c.key))
    .order_by(HOMES.c.key)
    .limit(_MOST)
)
_BY_PHONE: Final = (
    select(PEOPLE.c.home_id)
    .join(PHONES, PHONES.c.person_id == PEOPLE.c.id)
    .where(_in_range(PHONES.c.backwards))
    .order_by(PHONES.c.backwards)
    .limit(_MOST)
)
_BY_POSTCODE: Final = (
    select(ADDRESSES.c.home_id).where(_in_range(ADDRESSES.c.compact)).order_by(ADDRESSES.c.compact).limit(_MOST)
)
_IN_SEEK: Final = and_(SEEK.c.kind == bindparam("kind"), _in_range(SEEK.c.words))
_BY_WORDS: Final = select(SEEK.c.home_id).where(_IN_SEEK).order_by(SEEK.c.kind, SEEK.c.words).limit(_MOST)
_HOLDERS: Final = (
    select(SEEK_WORDS.c.kind, SEEK_WORDS.c.word)
    .where(SEEK_WORDS.c.kind == bindparam("kind"), _in_range(SEEK_WORDS.c.piece))
    .order_by(SEEK_WORDS.c.kind, SEEK_WORDS.c.piece)
    .limit(_FEW_WORDS)
    .subquery()
)
_HELD: Final = and_(
    SEEK.c.kind == _HOLDERS.c.kind,
    SEEK.c.words >= _HOLDERS.c.word + " ",
    SEEK.c.words < _HOLDERS.c.word + "!",
)
_BY_PIECE: Final = {
    "sqlite": select(SEEK.c.home_id).join(_HOLDERS, _HELD).limit(_MOST),
    # PostgreSQL takes a range for a ninth of the table and would rather read it all: the inner limit says better.
    "postgresql": select(
        select(SEEK.c.home_id).where(_HELD).order_by(SEEK.c.kind, SEEK.c.words).limit(_MOST).lateral().c.home_id
    )
    .select_from(_HOLDERS)
    .limit(_MOST),
}
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
    found: dict[int, str] = {}
    for by, statement, sought in _looks(connection.dialect.name, asked):
        for home_id in connection.execute(statement, {"most": limit * _PER_HOME, **sought}).scalars():
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


def _looks(database: str, asked: Asked) -> Iterator[tuple[str, Select[Any], Mapping[str, str]]]:
    if asked.key:
        yield "key", _BY_KEY, {"sought": asked.key}
    # A figure in it makes it a key's beginning or nobody's; letters alone may be a name, which is likelier.
    begins_with = ("key", _BY_KEY_START, _range(asked.key_start)) if asked.key_start else None
    if begins_with and not asked.key_start.isalpha():
        yield begins_with
    if asked.digits:
        yield "phone", _BY_PHONE, _range(asked.digits[::-1])
    if asked.postcode:
        yield "postcode", _BY_POSTCODE, _range(asked.postcode)
    for kind in (NAME, STREET) if asked.words else ():
        for statement, sought in _looks_for(database, asked.words):
            yield kind, statement, {"kind": kind, **sought}
    if begins_with and asked.key_start.isalpha():
        yield begins_with


def _looks_for(database: str, words: tuple[str, ...]) -> Iterator[tuple[Select[Any], Mapping[str, str]]]:
    """As whole words, as beginnings, then as pieces of one word, or as beginnings of several in any order."""
    together = " ".join(words)
    yield _BY_WORDS, _range(f"{together} ")
    yield _BY_WORDS, _range(together)
    if len(words) > 1:
        longest = max(words, key=len)
        others = [word for word in words if word != longest]
        yield (
            _by_several(len(others)),
            {**_range(longest), **{f"word{n}": f"% {each}%" for n, each in enumerate(others)}},
        )
    elif len(together) >= SHORTEST:
        yield _BY_PIECE[database], _range(together)


def _range(beginning: str) -> Mapping[str, str]:
    """The first text with a beginning, and the first after all that have it."""
    return {"low": beginning, "high": beginning[:-1] + chr(ord(beginning[-1]) + 1)}


@cache
def _by_several(others: int) -> Select[Any]:
    first = select(SEEK.c.home_id, SEEK.c.words).where(_IN_SEEK).order_by(SEEK.c.kind, SEEK.c.words)
    some = first.limit(_LOOKED_THROUGH).subquery()
    held = (some.c.words.like(bindparam(f"word{number}")) for number in range(others))
    return select(some.c.home_id).where(*held).limit(_MOST)

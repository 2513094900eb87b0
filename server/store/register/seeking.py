"""By which words is a home found, and how do they stand so that any piece of one is the beginning of a range?

An index of three-letter pieces has to lay long lists of homes side by side for pieces that many names share; here every
question is one range of one index, as quick for a million homes as for a thousand.
"""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any, Final

from sqlalchemy import Connection, delete, func, insert, select
from sqlalchemy import text as sql

from kb.register import Record, folded
from server.store.register.tables import ADDRESSES, PEOPLE, SEEK, SEEK_WORDS

NAME: Final = "name"
STREET: Final = "street"
SHORTEST: Final = 3
"""The fewest letters of a piece from inside a word."""

_LONGEST: Final = 80
_LOCK: Final = 7_208_834_520_311_468
"""The number of the lock that whoever changes words holds, so that none is dropped while another begins to use it."""


def renew(connection: Connection, home_id: int) -> None:
    """Write down anew by which words a home is found, and drop the words that no home has any more."""
    if connection.dialect.name == "postgresql":
        connection.execute(sql("SELECT pg_advisory_xact_lock(:lock)"), {"lock": _LOCK})
    there = connection.execute(select(SEEK.c.kind, SEEK.c.words).where(SEEK.c.home_id == home_id))
    had = {(row.kind, row.words) for row in there}
    has = set(_texts(connection, home_id))
    for kind, words in had - has:
        this = (SEEK.c.home_id == home_id, SEEK.c.kind == kind, SEEK.c.words == words)
        connection.execute(delete(SEEK).where(*this))
    add(connection, [{"home_id": home_id, "kind": kind, "words": words} for kind, words in sorted(has - had)])
    for kind, word in {(kind, _first(words)) for kind, words in had - has}:
        _drop_unused(connection, kind, word)


def renew_many(connection: Connection, homes: Mapping[int, Record]) -> None:
    """Write down anew by which words many homes are found: those that are new all at once, the others each."""
    if connection.dialect.name == "postgresql":
        connection.execute(sql("SELECT pg_advisory_xact_lock(:lock)"), {"lock": _LOCK})
    known = set(connection.execute(select(SEEK.c.home_id).where(SEEK.c.home_id.in_(homes)).distinct()).scalars())
    new = ((home, found) for home, record in homes.items() if home not in known for found in sorted(_of(record)))
    add(connection, [{"home_id": home, "kind": kind, "words": words} for home, (kind, words) in new])
    for home in sorted(known):
        renew(connection, home)


def add(connection: Connection, rows: list[dict[str, Any]]) -> None:
    """Write rows of words for homes that do not have them, and each word that is new."""
    if not rows:
        return
    connection.execute(insert(SEEK), rows)
    for kind, word in sorted({(row["kind"], _first(row["words"])) for row in rows}):
        known = select(SEEK_WORDS.c.word).where(SEEK_WORDS.c.kind == kind, SEEK_WORDS.c.piece == word)
        if connection.execute(known.where(SEEK_WORDS.c.word == word)).first() is None:
            connection.execute(insert(SEEK_WORDS), word_rows(kind, word))


def word_rows(kind: str, word: str) -> list[dict[str, Any]]:
    """The rows of a word that is new, one for each piece that it may be found by."""
    return [{"kind": kind, "piece": piece, "word": word} for piece in _endings(word)]


def turned(*words: str) -> Iterator[str]:
    """Folded words, each one first in turn, the others after it in their order and round again."""
    split = folded(*words).split()
    for number in range(len(split)):
        yield " ".join([*split[number:], *split[:number]])[:_LONGEST] + " "


def _of(record: Record) -> set[tuple[str, str]]:
    names = {(NAME, words) for person in record.people for words in turned(person.name)}
    address = record.address
    return names | {(STREET, words) for words in (turned(*address.lines, address.town) if address else ())}


def _texts(connection: Connection, home_id: int) -> Iterator[tuple[str, str]]:
    names = select(PEOPLE.c.name).where(PEOPLE.c.home_id == home_id)
    for name in connection.execute(names).scalars():
        yield from ((NAME, words) for words in turned(name))
    address = select(ADDRESSES.c.lines, ADDRESSES.c.town).where(ADDRESSES.c.home_id == home_id)
    for row in connection.execute(address):
        yield from ((STREET, words) for words in turned(*row.lines, row.town))


def _first(words: str) -> str:
    return words.partition(" ")[0]


def _endings(word: str) -> Iterable[str]:
    """The word itself and its endings; the word always, so that it is known to be there."""
    return dict.fromkeys([word, *(word[start:] for start in range(1, len(word) - SHORTEST + 1))])


def _drop_unused(connection: Connection, kind: str, word: str) -> None:
    used = select(func.count()).select_from(
        select(SEEK.c.id)
        .where(SEEK.c.kind == kind, SEEK.c.words >= f"{word} ", SEEK.c.words < f"{word}!")
        .limit(1)
        .subquery()
    )
    if not connection.execute(used).scalar():
        of_it = (SEEK_WORDS.c.kind == kind, SEEK_WORDS.c.word == word)
        connection.execute(delete(SEEK_WORDS).where(*of_it, SEEK_WORDS.c.piece.in_(_endings(word))))

"""The register of homes: put, read, find, show, erase, and never without the name of the account that asks."""

import secrets
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from datetime import UTC, date, datetime
from typing import Final

from sqlalchemy import Connection, Engine

from kb import keys
from kb.home import Home
from kb.register import MEANWHILE, Asked, Built, Mistake, Record, changed, mistakes_in
from server.store import database
from server.store.answering import answered
from server.store.homes import BY_KEY
from server.store.register import cards, erasing, finding, papers
from server.store.register.audit import Did, Entry, Look, looks, named, trace, trail
from server.store.register.cards import Printed
from server.store.register.erasing import Erased
from server.store.register.finding import Hit
from server.store.register.keying import replace_key
from server.store.register.reading import record_of, row_of_home, row_of_key, things_of
from server.store.register.reviewing import Review, reviews
from server.store.register.seeing import Seen, all_of
from server.store.register.writing import write

MOST: Final = 20
"""How many homes a search shows: who has not found theirs among so many types more."""

_USE_NEW: Final = "Use the key of the home's new card."
_SHOWN: Final = ("people.name", "address")
_ALL: Final = ("address", "people.name", "people.role", "people.phones", "people.needs")


class Register:
    """What one database knows of homes beyond what their keys open.

    `by` is the name of the account that asks; it stands in the trail before anything is handed out.
    """

    def __init__(self, engine: Engine) -> None:
        """Use a database that is open already."""
        self._engine = engine
        self._reading = database.for_reading(engine)

    def put(self, record: Record, by: str, before: Record | None = None) -> tuple[Mistake, ...]:
        """Write a new home, or one over what it was when it was read, or nothing and everything to be mended first.

        `before` is what was read; of two who read a home and write it, the second is told and the first loses nothing.
        A person without an id is new, and one who is no longer among the people is gone.
        """
        wrong = mistakes_in(record, _today())
        if wrong:
            return wrong
        with self._asking(by) as connection:
            home = row_of_key(connection, record.key, change=True)
            if home is not None and home.revoked:
                return (Mistake("key", "a key that opens a home", f"one withdrawn on {home.revoked}", _USE_NEW),)
            if (record_of(connection, home) if home else None) != before:
                return (MEANWHILE,)
            fields = changed(before, record)
            home_id = write(connection, record)
            if fields:
                trace(connection, by, Did.CHANGED, [home_id], fields)
        return ()

    def change(self, key: str, alter: Callable[[Record], Built], by: str) -> Built | None:
        """Write what becomes of a home as it is now, unless there are mistakes in it; None for a key that opens none.

        Nobody else changes the home between the look and the change.
        """
        with self._asking(by) as connection:
            home = row_of_home(connection, key, change=True)
            if home is None:
                return None
            before = record_of(connection, home)
            built = alter(before)
            wrong = built.mistakes or mistakes_in(built.record, _today())
            fields = changed(before, built.record)
            if fields and not wrong:
                write(connection, built.record)
                trace(connection, by, Did.CHANGED, [home.id], fields)
            return Built(built.record, wrong)

    def read(self, key: str, by: str) -> Record | None:
        """All that is known of the home that a key opens; None for no key or a withdrawn one."""
        with self._asking(by) as connection:
            home = row_of_home(connection, key)
            if home is None:
                return None
            trace(connection, by, Did.READ, [home.id], _ALL)
            return record_of(connection, home)

    def things(self, key: str) -> Record | None:
        """What stands in the home that a key opens, and where; nothing about people, so nobody need answer for it."""
        if keys.tidy(key) != key:
            return None
        with answered(self._engine), self._reading.connect() as connection:
            home = connection.execute(BY_KEY, {"sought": key}).first()
            return None if home is None or home.revoked else things_of(connection, home)

    def find(self, asked: Asked, by: str, limit: int = MOST) -> tuple[Hit, ...]:
        """The homes that fit what was asked, the best first: by key, phone, postcode, name, then street."""
        named(by)
        with answered(self._engine):
            with self._reading.connect() as connection:
                found = finding.find(connection, asked, limit)
                shown = finding.hits(connection, found) if found else ()
            if found:
                with self._engine.begin() as connection:
                    trace(connection, by, Did.FOUND, found, _SHOWN)
        return shown

    def replace_key(self, key: str, by: str, on: date | None = None, random: keys.Chooser = secrets) -> str | None:
        """A new key for a home whose card is lost; the old one is withdrawn. None for a key that opens no home."""
        with self._asking(by) as connection:
            return replace_key(connection, key, by, on or _today(), random)

    def seen(self, key: str, by: str, person: int | None = None) -> Seen | None:
        """Everything that is held about a home, or of its people about one alone; None for a key that opens none."""
        with self._asking(by) as connection:
            home = row_of_home(connection, key)
            if home is None:
                return None
            trace(connection, by, Did.SHOWN, [home.id], _ALL)
            return all_of(connection, home, person)

    def erase(self, person: int, by: str, on: date | None = None) -> Erased | None:
        """Forget a person by their number, but for what the law has kept; None for no such person."""
        with self._asking(by) as connection:
            erased = erasing.erase(connection, person, by, on or _today())
        if erased:
            with answered(self._engine):
                erasing.sweep(self._reading)
        return erased

    def keep(self, key: str, kind: str, made: date, by: str, person: int | None = None) -> bool:
        """Note a paper that the law has the firm keep, made for one of a home's people; whether the key opens it."""
        with self._asking(by) as connection:
            home = row_of_home(connection, key)
            if home is None:
                return False
            record = record_of(connection, home)
            whose = next((each for each in record.people if each.id == person), None)
            papers.keep(connection, home.id, record, whose, kind, made)
            trace(connection, by, Did.KEPT, [home.id], [kind])
        return True

    def reviews(self, until: date, by: str, most: int = 500) -> tuple[Review, ...]:
        """The needs to be asked about again by a day, the longest due first."""
        with self._asking(by) as connection:
            return reviews(connection, until, most, by)

    def printed(self, printed: Iterable[Printed], by: str) -> int:
        """Remember cards that were printed, and how many of their keys open a home."""
        with self._asking(by) as connection:
            return sum(cards.note(connection, card, by) for card in printed)

    def cards(self) -> Iterator[tuple[Home, Printed]]:
        """Every home that has a card, as it is now, with the last card of each size; nothing about people."""
        with answered(self._engine):
            yield from cards.walk(self._reading)

    def trail(self, key: str) -> tuple[Entry, ...]:
        """Who saw or changed what of the home that a key opens, the oldest first."""
        with answered(self._engine), self._reading.connect() as connection:
            home = row_of_home(connection, key)
            return trail(connection, home.id) if home else ()

    def looks(self, who: str, most: int, before: int | None = None) -> tuple[Look, ...]:
        """What an account looked at and changed, or with no name all of them, the newest first."""
        with answered(self._engine), self._reading.connect() as connection:
            return looks(connection, who, most, before)

    @contextmanager
    def _asking(self, by: str) -> Iterator[Connection]:
        named(by)
        with answered(self._engine), self._engine.begin() as connection:
            yield connection


def _today() -> date:
    return datetime.now(UTC).date()

"""Many homes of the register at once: taken in, written out, found again by their keys, and what falls due."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from typing import Any, Final

from sqlalchemy import Connection, Engine, Row, select

from kb.home import Home
from kb.listing import Row as Line
from kb.register import DUE, Address, Chosen, Due, Mistake, Record
from server.store import database
from server.store.answering import answered
from server.store.homes import home_of
from server.store.register import cards, choosing, finding
from server.store.register.audit import Did, named, trace
from server.store.register.cards import Printed
from server.store.register.choosing import ChosenHome
from server.store.register.falling_due import due
from server.store.register.finding import Hit
from server.store.register.many import CHUNK, records_of
from server.store.register.neighbours import another_at, keys_at
from server.store.register.tables import ADDRESSES
from server.store.register.taking import Taken, Tell, take
from server.store.tables import HOMES

EVERYTHING: Final = Chosen()
"""Every home."""

OF_HOMES: Final = ("service", "alarm", "warranty")
"""What falls due that says nothing about people."""

_SEEN: Final = ("address", "people.name", "people.role", "people.phones", "people.needs")
_LIVE: Final = select(HOMES).where(HOMES.c.revoked.is_(None))


def _silent(_lines: int) -> None:
    """Nobody watches."""


class Lists:
    """What is asked of many homes; `by` is the account that asks, and stands in the trail of each of them."""

    def __init__(self, engine: Engine) -> None:
        """Use a database that is open already."""
        self._engine = engine
        self._reading = database.for_reading(engine)

    def take(
        self, lines: Sequence[Line], region: str, today: date, by: str, dry_run: bool = False, tell: Tell = _silent
    ) -> Taken:
        """Take in a table of homes, all of it or, with anything wrong in it, nothing.

        A line with a key changes the home that has it, or makes one with it; a line without gets a new key.
        """
        named(by)
        # A look alone holds nobody up who writes.
        opened = self._reading.connect() if dry_run else self._engine.begin()
        with answered(self._engine), opened as connection:
            return take(connection, lines, region, today, by, dry_run, tell)

    def every(self, by: str, wanted: Chosen = EVERYTHING) -> Iterator[Record]:
        """The record of every home that is chosen, by postcode; some hundreds are held at a time."""
        with answered(self._engine), self._reading.connect() as connection:
            numbers = choosing.numbers(connection, wanted)
        for start in range(0, len(numbers), CHUNK):
            some = HOMES.c.id.in_(numbers[start : start + CHUNK])
            with answered(self._engine), self._engine.begin() as connection:
                found = {row.id: row for row in connection.execute(_LIVE.where(some))}
                rows: Sequence[Row[Any]] = [found[n] for n in numbers[start : start + CHUNK] if n in found]
                trace(connection, named(by), Did.READ, [row.id for row in rows], _SEEN)
                records = tuple(records_of(connection, rows))
            yield from records

    def chosen(self, wanted: Chosen, by: str, most: int, after: int = 0) -> tuple[int, tuple[ChosenHome, ...]]:
        """How many homes are chosen, and so many of them by postcode; nothing about people but where they live."""
        with answered(self._engine), self._engine.begin() as connection:
            found = choosing.some(connection, wanted, most, after)
            trace(connection, named(by), Did.READ, [each.home for each in found], ("address",))
            return choosing.count(connection, wanted), found

    def homes(self, wanted: Chosen, most: int, after: int = 0) -> tuple[Home, ...]:
        """What the keys of so many of the homes that are chosen open, by postcode."""
        with answered(self._engine), self._reading.connect() as connection:
            numbers = choosing.numbers(connection, wanted, most, after)
            found = {row.id: row for row in connection.execute(_LIVE.where(HOMES.c.id.in_(numbers)))}
            return tuple(home_of(found[number]) for number in numbers if number in found)

    def hits(self, keys: Sequence[str], by: str) -> tuple[Hit, ...]:
        """What is shown of homes that were found before, in the order of their keys."""
        with answered(self._engine), self._engine.begin() as connection:
            wanted = select(HOMES.c.key, HOMES.c.id).where(HOMES.c.key.in_(keys[:CHUNK]), HOMES.c.revoked.is_(None))
            numbers = {row.key: row.id for row in connection.execute(wanted)}
            found = {numbers[key]: "key" for key in keys if key in numbers}
            trace(connection, named(by), Did.FOUND, found, ("people.name", "address"))
            return finding.hits(connection, found) if found else ()

    def there(self, address: Address | None) -> tuple[Mistake, ...]:
        """What is to be said of a new home's address, if some home is there already."""
        if address is None:
            return ()
        with answered(self._engine), self._reading.connect() as connection:
            return tuple(map(another_at, keys_at(connection, [address]).values()))

    def printed_of(self, key: str) -> tuple[Printed, ...]:
        """The cards that were printed for a home, one of each size."""
        with answered(self._engine), self._reading.connect() as connection:
            home = connection.execute(select(HOMES.c.id).where(HOMES.c.key == key)).scalar()
            return cards.of_home(connection, home) if home is not None else ()

    def due(self, first: date, end: date, by: str, kinds: Sequence[str] = tuple(DUE)) -> tuple[Due, ...]:
        """What falls due from the first day up to the end, which is left out, with where it is."""
        with answered(self._engine), self._engine.begin() as connection:
            found = due(connection, kinds, first, end)
            _trace(connection, named(by), found)
            return found

    def dates(self, first: date, end: date) -> tuple[Due, ...]:
        """What falls due of appliances and alarms, for a calendar: the town alone, with nothing about people."""
        with answered(self._engine), self._reading.connect() as connection:
            return due(connection, OF_HOMES, first, end)

    def towns(self, keys: Sequence[str]) -> Mapping[str, tuple[str, str]]:
        """The town and the postcode of homes by their keys, for a calendar: nothing about people, and no street."""
        wanted = select(HOMES.c.key, ADDRESSES.c.town, ADDRESSES.c.postcode)
        wanted = wanted.join(ADDRESSES, ADDRESSES.c.home_id == HOMES.c.id).where(HOMES.c.key.in_(keys[:CHUNK]))
        with answered(self._engine), self._reading.connect() as connection:
            return {row.key: (row.town, row.postcode) for row in connection.execute(wanted)}

    def key_of(self, home: int) -> str | None:
        """The key of a home by its number, or None for no such home."""
        with answered(self._engine), self._reading.connect() as connection:
            wanted = select(HOMES.c.key).where(HOMES.c.id == home, HOMES.c.revoked.is_(None))
            return connection.execute(wanted).scalar()


def _trace(connection: Connection, by: str, found: Sequence[Due]) -> None:
    needing = dict.fromkeys(each.home for each in found if each.person is not None)
    others = dict.fromkeys(each.home for each in found if each.home not in needing)
    trace(connection, by, Did.READ, needing, ("address", "people.needs"))
    trace(connection, by, Did.READ, others, ("address",))

"""Which home does a key open?"""

from datetime import UTC, date, datetime
from typing import Self

from kb import keys
from kb.home import Home
from server.store import database
from server.store.answering import answered
from server.store.appointments import Appointments
from server.store.calendars import Calendars
from server.store.calls import Calls
from server.store.figures import Figures
from server.store.handovers import Handovers
from server.store.homes import BY_KEY, BY_OLD_KEY, LIVE, NAMED, REVOKE, Revoked, home_of, put_statement, row_of
from server.store.jobs import Jobs
from server.store.libraries import Libraries
from server.store.outbox import Outbox
from server.store.register import Lists, Register
from server.store.requests import Requests
from server.store.staff import Staff


class Store:
    """The homes in one database.

    A read is a single indexed row and quick enough to stand in an async route.
    `register` holds what is known beyond that, people first of all, and `lists` answers for many homes at once.
    Nothing is kept here between two calls, so any number of processes may share a database.
    """

    def __init__(self, address: str) -> None:
        """Open the database at an address such as sqlite:///tundish.db.

        Raises WrongDatabase unless it is there, ours and of this program's version.
        """
        self._engine = database.engine_for(address)
        self._reading = database.for_reading(self._engine)
        self.staff = Staff(self._engine, self._reading)
        self.calls = Calls(self._engine, self._reading)
        self.handovers = Handovers(self._engine, self._reading)
        self.requests = Requests(self._engine, self._reading)
        self.outbox = Outbox(self._engine, self._reading)
        self.appointments = Appointments(self._engine, self._reading)
        self.jobs = Jobs(self._engine, self._reading)
        self.figures = Figures(self._engine, self._reading)
        self.libraries = Libraries(self._engine, self._reading)
        try:
            database.refuse_missing(self._engine)
            database.refuse_other_version(self._engine)
        except BaseException:
            self.close()
            raise
        self.register = Register(self._engine)
        self.lists = Lists(self._engine)
        self.calendars = Calendars(self._engine, self._reading)

    def home(self, key: str) -> Home | Revoked | None:
        """The home that a key as it is printed opens, or that the key was revoked, or None for no such key."""
        if keys.tidy(key) != key:
            return None
        with answered(self._engine), self._reading.connect() as connection:
            row = connection.execute(BY_KEY, {"sought": key}).first()
        if row is None:
            return None
        return Revoked(row.key, row.revoked) if row.revoked else home_of(row)

    def home_of_old(self, key: str) -> Home | None:
        """The home whose key this was until it was replaced; nothing is opened by it, staff alone may ask."""
        if keys.tidy(key) != key:
            return None
        with answered(self._engine), self._reading.connect() as connection:
            row = connection.execute(BY_OLD_KEY, {"sought": key}).first()
        return None if row is None or row.revoked else home_of(row)

    def homes(self) -> tuple[Home, ...]:
        """Every home whose key opens it, in the order they came."""
        with answered(self._engine), self._reading.connect() as connection:
            rows = connection.execute(LIVE).all()
        return tuple(home_of(row) for row in rows)

    def named(self, words: str, most: int) -> tuple[Home, ...]:
        """So many homes at most whose appliance's name has these words in it."""
        with answered(self._engine), self._reading.connect() as connection:
            rows = connection.execute(NAMED, {"words": f"%{words}%", "most": most}).all()
        return tuple(home_of(row) for row in rows)

    def put(self, home: Home) -> None:
        """Write a home in, over the one with the same key; a revoked key stays revoked.

        Raises ValueError unless the key is as it is printed and every word can be kept.
        """
        if keys.tidy(home.key) != home.key:
            raise ValueError(f"Expected a key as it is printed, found {home.key!r}. Tidy it, or make a new one.")
        row = row_of(home)
        with answered(self._engine), self._engine.begin() as connection:
            connection.execute(put_statement(connection.dialect.name), row)

    def revoke(self, key: str, on: date | None = None) -> bool:
        """Let a key open nothing any more, from this day; whether it opened something until now."""
        if keys.tidy(key) != key:
            return False
        day = on or datetime.now(UTC).date()
        with answered(self._engine), self._engine.begin() as connection:
            return bool(connection.execute(REVOKE, {"sought": key, "revoked": day}).rowcount)

    def close(self) -> None:
        """Let go of every connection."""
        self._engine.dispose()

    def __enter__(self) -> Self:
        """Use the store in a `with`, which closes it."""
        return self

    def __exit__(self, *error: object) -> None:
        """Close the store."""
        self.close()

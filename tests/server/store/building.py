"""Homes for the tests of the store, and ways behind the program's back."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from random import Random

from sqlalchemy import Connection, text

from kb import keys
from kb.facts import GaugeMarks, Known
from kb.home import Home
from server.store import database

FIRST, SECOND, THIRD = (keys.make(Random(seed)) for seed in range(3))


def file_in(folder: Path, name: str = "tundish.db") -> str:
    """The address of a SQLite file in a folder."""
    return f"sqlite:///{folder / name}"


def home(key: str = FIRST, appliance: str = "Any 20") -> Home:
    """A home with something in every field."""
    known = Known({"system": "sealed", "meter": "prepay"}, GaugeMarks(0.7, 1.1, 1.9), {"reset": 1})
    return Home(key, "any", appliance, known, {"stop-tap": "under the sink – “left”"})


@contextmanager
def behind(address: str) -> Iterator[Connection]:
    """A connection to a database that knows nothing of the store, in a transaction of its own."""
    engine = database.engine_for(address)
    try:
        with engine.begin() as connection:
            yield connection
    finally:
        engine.dispose()


def tamper(address: str, *statements: str) -> None:
    """Do something to a database behind the program's back."""
    with behind(address) as connection:
        for statement in statements:
            connection.execute(text(statement))

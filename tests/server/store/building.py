"""Stores and homes for the tests of the store."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from random import Random

from kb import keys
from kb.facts import GaugeMarks, Known
from kb.home import Home
from server.store import Store
from server.store.upgrade import migrate

FIRST, SECOND, THIRD = (keys.make(Random(seed)) for seed in range(3))


def address(path: Path, name: str = "tundish.db") -> str:
    """The address of a file in a folder."""
    return f"sqlite:///{path / name}"


@contextmanager
def opened(path: Path) -> Iterator[Store]:
    """A store in a new or an old file of a folder."""
    migrate(address(path))
    with Store(address(path)) as store:
        yield store


def home(key: str = FIRST, appliance: str = "Any 20") -> Home:
    """A home with something in every field."""
    known = Known({"system": "sealed", "meter": "prepay"}, GaugeMarks(0.7, 1.1, 1.9), {"reset": 1})
    return Home(key, "any", appliance, known, {"stop-tap": "under the sink – “left”"})


def tamper(path: Path, *statements: str) -> None:
    """Do something to the file behind the program's back."""
    with closing(sqlite3.connect(path / "tundish.db")) as connection, connection:
        for statement in statements:
            connection.execute(statement)

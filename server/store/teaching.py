"""How does a home learn what a signed handover or a closed job found, with a trace of who says so?"""

from collections.abc import Callable
from typing import TypeAlias

from sqlalchemy import Connection

from kb.register import Record, changed
from server.store.register.audit import Did, trace
from server.store.register.reading import record_of, row_of_key
from server.store.register.writing import write

Learn: TypeAlias = Callable[[Record | None], Record | None]
"""What a home becomes, from what the register says of it at that very moment, or from nothing where it says nothing.

None leaves it as it is.
"""


def teach(connection: Connection, key: str, learn: Learn, by: str) -> None:
    """Keep a home as a record or a job leaves it; nobody else changes it meanwhile.

    A home whose key was withdrawn meanwhile stays as it was: its new key opens what the register says.
    """
    row = row_of_key(connection, key, change=True)
    if row is not None and row.revoked:
        return
    before = record_of(connection, row) if row else None
    after = learn(before)
    if after is None or after == before:
        return
    home_id = write(connection, after)
    trace(connection, by, Did.CHANGED, [home_id], changed(before, after))

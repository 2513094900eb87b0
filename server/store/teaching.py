"""How does a home learn what a signed handover or a closed job found, with a trace of who says so?"""

from collections.abc import Mapping
from dataclasses import replace

from sqlalchemy import Connection

from kb.home import Home
from kb.register import changed
from kb.visit.changing import with_learnt
from server.store.homes import put_statement, row_of
from server.store.register.audit import Did, trace
from server.store.register.reading import record_of, row_of_home
from server.store.register.writing import write


def teach(connection: Connection, home: Home, serial: str, by: str) -> None:
    """Keep a home as a record leaves it; the register's first appliance is the one it was about.

    A home whose key was withdrawn meanwhile stays as it was: its new key opens what the register says.
    """
    known = row_of_home(connection, home.key, change=True)
    before = record_of(connection, known) if known else None
    connection.execute(put_statement(connection.dialect.name), row_of(home))
    row = row_of_home(connection, home.key, change=True)
    if row is None:
        return
    found = record_of(connection, row)
    first = replace(found.appliances[0], serial=serial, fuel=home.known.facts.get("fuel"))
    after = replace(found, appliances=(first, *found.appliances[1:]))
    write(connection, after)
    trace(connection, by, Did.CHANGED, [row.id], changed(before, after))


def relearn(connection: Connection, key: str, learnt: Mapping[str, object], by: str) -> None:
    """Let a home say what an engineer found otherwise; a home whose key was withdrawn meanwhile stays as it was."""
    row = row_of_home(connection, key, change=True)
    if row is None:
        return
    before = record_of(connection, row)
    after = with_learnt(before, learnt)
    fields = changed(before, after)
    if fields:
        write(connection, after)
        trace(connection, by, Did.CHANGED, [row.id], fields)

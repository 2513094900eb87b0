"""The tables of calls, as the newest migration leaves them."""

from typing import Final

from sqlalchemy import JSON, Column, ForeignKey, Index, Integer, String, Table, UniqueConstraint

from server.store.tables import METADATA
from server.store.types import Moment

CALLS: Final = Table(
    "calls",
    METADATA,
    Column("id", String(24), primary_key=True),
    Column("began", Moment, nullable=False),
    Column("holder", String(60), nullable=False),
    Column("home", String(17)),
    Column("closed", Moment, index=True),
    Column("how", String(20)),
    Column("follow", Moment, index=True),
    Index("ix_calls_home_began", "home", "began"),
)
"""A call a row: who holds it, the key of its home, when and how it was closed, when to ask whether it still works.

Everything here but the holder follows from the events; it stands here so that lists need not read them.
"""

EVENTS: Final = Table(
    "call_events",
    METADATA,
    Column("number", Integer, primary_key=True),
    Column("call", String(24), ForeignKey("calls.id", name="fk_call_events_call"), nullable=False),
    Column("id", String(80), nullable=False),
    Column("at", Moment, nullable=False),
    Column("by", String(60), nullable=False),
    Column("did", String(20), nullable=False),
    Column("said", JSON, nullable=False),
    UniqueConstraint("call", "id"),
)
"""What happened in a call, in the order of `number`; a call's events are only ever added."""

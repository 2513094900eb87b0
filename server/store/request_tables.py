"""The tables of those who ask to be called, and of what is still to be told, as the newest migration leaves them."""

from typing import Final

from sqlalchemy import JSON, Column, ForeignKey, Index, Integer, String, Table

from server.store.tables import METADATA
from server.store.types import Moment

REQUESTS: Final = Table(
    "requests",
    METADATA,
    Column("id", Integer, primary_key=True),
    Column("sent", String(32), nullable=False, unique=True),
    Column("name", String(60), nullable=False),
    Column("phone", String(20), nullable=False),
    Column("reach", String(20), nullable=False),
    Column("pace", String(20), nullable=False),
    Column("tried", JSON(none_as_null=True)),
    Column("asked", Moment, nullable=False, index=True),
    Column("taken", Moment),
    Column("taken_by", String(60)),
    Column("done", Moment, index=True),
    Column("done_by", String(60)),
)
"""Somebody who asks to be called, a row each. `sent` is the same however often the same form is sent.

`tried` is empty unless they agreed that what they answered goes along.
"""

REQUEST_TRIES: Final = Table(
    "request_tries",
    METADATA,
    Column("id", Integer, primary_key=True),
    Column("address", String(64), nullable=False),
    Column("phone", String(20), nullable=False),
    Column("at", Moment, nullable=False, index=True),
    Index("ix_request_tries_address_at", "address", "at"),
    Index("ix_request_tries_phone_at", "phone", "at"),
)
"""Every request that was taken, kept for as long as the limits look back."""

OUTBOX: Final = Table(
    "outbox",
    METADATA,
    Column("id", Integer, primary_key=True),
    Column("request", Integer, ForeignKey("requests.id", name="fk_outbox_request"), nullable=False, index=True),
    Column("way", String(20), nullable=False),
    Column("key", String(32), nullable=False, unique=True),
    Column("due", Moment, nullable=False),
    Column("tries", Integer, nullable=False, default=0),
    Column("why", String(300), nullable=False, default=""),
    Column("claim", String(32)),
    Column("claimed_until", Moment),
    Column("sent", Moment),
    Index("ix_outbox_way_sent_due", "way", "sent", "due"),
)
"""What is to be told in one way, a row each; `key` lets whoever is told notice the same thing told twice.

`claim` is made anew for each try and stands until `claimed_until`: no other process tries before that.
"""

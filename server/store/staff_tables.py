"""The tables of those who sign in, as the newest migration leaves them."""

from typing import Final

from sqlalchemy import JSON, Boolean, Column, ForeignKey, Index, Integer, String, Table

from server.store.tables import METADATA
from server.store.types import Moment

ACCOUNTS: Final = Table(
    "accounts",
    METADATA,
    Column("id", Integer, primary_key=True),
    Column("name", String(60), nullable=False),
    Column("sought", String(120), nullable=False, unique=True),
    Column("roles", JSON, nullable=False),
    Column("password", String(200), nullable=False),
    Column("code_secret", String(64)),
    Column("code_used", Integer, nullable=False, default=0),
    Column("made", Moment, nullable=False),
    Column("ended", Moment),
)
"""An account a row. `sought` is its name as names are compared; `code_used` is the newest step a code was taken of."""

SESSIONS: Final = Table(
    "sessions",
    METADATA,
    Column("id", String(64), primary_key=True),
    Column("account", Integer, ForeignKey("accounts.id", name="fk_sessions_account"), nullable=False, index=True),
    Column("began", Moment, nullable=False),
    Column("seen", Moment, nullable=False),
)
"""A session a row, by the hash of what the browser holds; a stolen database opens none."""

SIGN_INS: Final = Table(
    "sign_ins",
    METADATA,
    Column("id", Integer, primary_key=True),
    Column("sought", String(120), nullable=False),
    Column("address", String(64), nullable=False),
    Column("at", Moment, nullable=False, index=True),
    Column("well", Boolean, nullable=False),
    Index("ix_sign_ins_sought_at", "sought", "at"),
    Index("ix_sign_ins_address_at", "address", "at"),
)
"""Every try to sign in, kept for as long as the throttle looks back."""

"""The tables of handover records, as the newest migration leaves them."""

from typing import Final

from sqlalchemy import BigInteger, Column, DateTime, ForeignKey, Integer, String, Table, Text, UniqueConstraint

from server.store.tables import METADATA

HANDOVERS: Final = Table(
    "handovers",
    METADATA,
    Column("id", String(24), primary_key=True),
    Column("key", String(17), nullable=False, index=True),
    Column("begun", DateTime(timezone=True), nullable=False),
    Column("by", String(60), nullable=False, index=True),
    Column("signed_name", String(120)),
    Column("signed_by", String(60)),
    Column("signed_at", DateTime(timezone=True)),
    Column("fingerprint", String(64)),
    Column("first_key", String(17)),
)
"""A record a row, by the key of its home, which may not be there yet; four say who signed it.

`first_key` is the key it was begun for, where the home has another by now.
"""

ENTRIES: Final = Table(
    "handover_entries",
    METADATA,
    Column("number", Integer, primary_key=True),
    Column("handover", String(24), ForeignKey("handovers.id", name="fk_handover_entries_handover"), nullable=False),
    Column("id", String(60), nullable=False),
    Column("sequence", BigInteger, nullable=False),
    Column("field", String(60), nullable=False),
    Column("text", Text, nullable=False),
    Column("by", String(60), nullable=False),
    Column("at", DateTime(timezone=True), nullable=False),
    UniqueConstraint("handover", "id", name="uq_handover_entries_handover"),
)
"""A field as it was written once, a row; rows are added and never changed."""

ADDITIONS: Final = Table(
    "handover_additions",
    METADATA,
    Column("number", Integer, primary_key=True),
    Column("handover", String(24), ForeignKey("handovers.id", name="fk_handover_additions_handover"), nullable=False),
    Column("id", String(60), nullable=False),
    Column("words", Text, nullable=False),
    Column("by", String(60), nullable=False),
    Column("at", DateTime(timezone=True), nullable=False),
    Column("fingerprint", String(64), nullable=False),
    UniqueConstraint("handover", "id", name="uq_handover_additions_handover"),
)
"""Words added to a signed record, a row; rows are added and never changed."""

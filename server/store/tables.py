"""The tables, as the newest migration leaves them."""

from typing import Final

from sqlalchemy import JSON, Column, Date, Integer, MetaData, String, Table

METADATA: Final = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_name)s",
        "uq": "uq_%(table_name)s_%(column_0_name)s",
        "pk": "pk_%(table_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s",
    }
)

KEY: Final = String(17).with_variant(String(17, collation="C"), "postgresql")
"""A key in the order of its characters, so that all with one beginning lie in one range of the index."""

HOMES: Final = Table(
    "homes",
    METADATA,
    Column("id", Integer, primary_key=True),
    Column("key", KEY, nullable=False, unique=True),
    Column("range", String(80), nullable=False),
    Column("appliance", String(200), nullable=False),
    Column("facts", JSON, nullable=False),
    Column("marks", JSON, nullable=False),
    Column("limits", JSON, nullable=False),
    Column("places", JSON, nullable=False),
    Column("fitted", Date),
    Column("next_service", Date, index=True),
    Column("revoked", Date),
    Column("replaced_by", Integer),
)
"""A home a row, opened by its key; nothing about people. `revoked` is the day its key stopped working.

A key that was replaced leaves a row with nothing else in it, whose `replaced_by` is the home's own row.
"""

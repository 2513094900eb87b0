"""Calls, and what happened in each."""

import sqlalchemy as sa
from alembic import op

revision = "0005"
# The handovers are version 0004: this follows them once both are in one tree.
down_revision = "0004"


def upgrade() -> None:
    """Make the tables of calls and of their events."""
    moment = sa.DateTime(timezone=True)
    op.create_table(
        "calls",
        sa.Column("id", sa.String(24), nullable=False),
        sa.Column("began", moment, nullable=False),
        sa.Column("holder", sa.String(60), nullable=False),
        sa.Column("home", sa.String(17), nullable=True),
        sa.Column("closed", moment, nullable=True),
        sa.Column("how", sa.String(20), nullable=True),
        sa.Column("follow", moment, nullable=True),
        sa.PrimaryKeyConstraint("id", name="pk_calls"),
    )
    op.create_index("ix_calls_closed", "calls", ["closed"])
    op.create_index("ix_calls_follow", "calls", ["follow"])
    op.create_index("ix_calls_home_began", "calls", ["home", "began"])
    op.create_table(
        "call_events",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("call", sa.String(24), nullable=False),
        sa.Column("id", sa.String(80), nullable=False),
        sa.Column("at", moment, nullable=False),
        sa.Column("by", sa.String(60), nullable=False),
        sa.Column("did", sa.String(20), nullable=False),
        sa.Column("said", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("number", name="pk_call_events"),
        sa.ForeignKeyConstraint(["call"], ["calls.id"], name="fk_call_events_call"),
        sa.UniqueConstraint("call", "id", name="uq_call_events_call"),
    )

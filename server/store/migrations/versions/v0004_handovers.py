"""Handover records."""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"


def upgrade() -> None:
    """Make the tables of handovers, of their entries and of what was added after the signing."""
    moment = sa.DateTime(timezone=True)
    op.create_table(
        "handovers",
        sa.Column("id", sa.String(24), nullable=False),
        sa.Column("key", sa.String(17), nullable=False),
        sa.Column("begun", moment, nullable=False),
        sa.Column("by", sa.String(60), nullable=False),
        sa.Column("signed_name", sa.String(120), nullable=True),
        sa.Column("signed_by", sa.String(60), nullable=True),
        sa.Column("signed_at", moment, nullable=True),
        sa.Column("fingerprint", sa.String(64), nullable=True),
        sa.PrimaryKeyConstraint("id", name="pk_handovers"),
    )
    op.create_index("ix_handovers_key", "handovers", ["key"])
    op.create_index("ix_handovers_by", "handovers", ["by"])
    _of_handover(
        "entries",
        sa.Column("sequence", sa.BigInteger(), nullable=False),
        sa.Column("field", sa.String(60), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("by", sa.String(60), nullable=False),
        sa.Column("at", moment, nullable=False),
    )
    _of_handover(
        "additions",
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("by", sa.String(60), nullable=False),
        sa.Column("at", moment, nullable=False),
        sa.Column("fingerprint", sa.String(64), nullable=False),
    )


def _of_handover(what: str, *columns: "sa.Column[object]") -> None:
    table = f"handover_{what}"
    op.create_table(
        table,
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("handover", sa.String(24), nullable=False),
        sa.Column("id", sa.String(60), nullable=False),
        *columns,
        sa.PrimaryKeyConstraint("number", name=f"pk_{table}"),
        sa.ForeignKeyConstraint(["handover"], ["handovers.id"], name=f"fk_{table}_handover"),
        sa.UniqueConstraint("handover", "id", name=f"uq_{table}_handover"),
    )

"""The addresses of calendars, and what falls due found by its day."""

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"


def upgrade() -> None:
    """Make the table of calendars' addresses, and indexes of the days on which something falls due."""
    op.create_table(
        "calendars",
        sa.Column("account", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("secret", sa.String(64), nullable=False),
        sa.Column("made", sa.DateTime(timezone=True), nullable=False),
        sa.PrimaryKeyConstraint("account", name="pk_calendars"),
        sa.ForeignKeyConstraint(["account"], ["accounts.id"], name="fk_calendars_account"),
        sa.UniqueConstraint("secret", name="uq_calendars_secret"),
    )
    op.create_index("ix_homes_next_service", "homes", ["next_service"])
    op.create_index("ix_appliances_next_service", "appliances", ["next_service"])
    op.create_index("ix_appliances_warranty_ends", "appliances", ["warranty_ends"])
    op.create_index("ix_alarms_ends", "alarms", ["ends"])
    op.create_index("ix_needs_consented", "needs", ["consented"])

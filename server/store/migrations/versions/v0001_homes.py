"""The homes."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    """Make the table of homes."""
    op.create_table(
        "homes",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("key", sa.String(17), nullable=False),
        sa.Column("range", sa.String(80), nullable=False),
        sa.Column("appliance", sa.String(200), nullable=False),
        sa.Column("facts", sa.JSON(), nullable=False),
        sa.Column("marks", sa.JSON(), nullable=False),
        sa.Column("limits", sa.JSON(), nullable=False),
        sa.Column("places", sa.JSON(), nullable=False),
        sa.Column("fitted", sa.Date(), nullable=True),
        sa.Column("next_service", sa.Date(), nullable=True),
        sa.Column("revoked", sa.Date(), nullable=True),
        sa.PrimaryKeyConstraint("id", name="pk_homes"),
        sa.UniqueConstraint("key", name="uq_homes_key"),
    )

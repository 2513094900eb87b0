"""The articles that were served before, and where the danger questions of a call took longest."""

import sqlalchemy as sa
from alembic import op

revision = "0010"
down_revision = "0009"


def upgrade() -> None:
    """Make the table of libraries, and let calls that took longer than a minute be counted once more."""
    op.create_table(
        "libraries",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("fingerprint", sa.String(32), nullable=False),
        sa.Column("served", sa.DateTime(timezone=True), nullable=False),
        sa.Column("texts", sa.LargeBinary(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_libraries"),
        sa.UniqueConstraint("fingerprint", name="uq_libraries_fingerprint"),
    )
    op.add_column("figure_calls", sa.Column("stuck", sa.String(200), nullable=True))
    op.add_column("figure_calls", sa.Column("stuck_for", sa.Float(), nullable=True))
    op.execute("UPDATE figure_calls SET upto = 0 WHERE danger IS NULL OR danger > 60")

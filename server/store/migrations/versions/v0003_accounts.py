"""Those who sign in."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    """Make the tables of accounts, sessions and tries to sign in."""
    moment = sa.DateTime(timezone=True)
    op.create_table(
        "accounts",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(60), nullable=False),
        sa.Column("sought", sa.String(120), nullable=False),
        sa.Column("roles", sa.JSON(), nullable=False),
        sa.Column("password", sa.String(200), nullable=False),
        sa.Column("code_secret", sa.String(64), nullable=True),
        sa.Column("code_used", sa.Integer(), nullable=False),
        sa.Column("made", moment, nullable=False),
        sa.Column("ended", moment, nullable=True),
        sa.PrimaryKeyConstraint("id", name="pk_accounts"),
        sa.UniqueConstraint("sought", name="uq_accounts_sought"),
    )
    op.create_table(
        "sessions",
        sa.Column("id", sa.String(64), nullable=False),
        sa.Column("account", sa.Integer(), nullable=False),
        sa.Column("began", moment, nullable=False),
        sa.Column("seen", moment, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_sessions"),
        sa.ForeignKeyConstraint(["account"], ["accounts.id"], name="fk_sessions_account"),
    )
    op.create_index("ix_sessions_account", "sessions", ["account"])
    op.create_table(
        "sign_ins",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("sought", sa.String(120), nullable=False),
        sa.Column("address", sa.String(64), nullable=False),
        sa.Column("at", moment, nullable=False),
        sa.Column("well", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_sign_ins"),
    )
    op.create_index("ix_sign_ins_at", "sign_ins", ["at"])
    op.create_index("ix_sign_ins_sought_at", "sign_ins", ["sought", "at"])
    op.create_index("ix_sign_ins_address_at", "sign_ins", ["address", "at"])

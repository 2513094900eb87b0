"""The key a handover record was begun for, and keys found by their beginning."""

import sqlalchemy as sa
from alembic import op

revision = "0010"
down_revision = "0009"


def upgrade() -> None:
    """Keep a record's first key, which its fingerprint is made of, and let a range of keys be one of the index.

    A database that sorts by a language's rules may put keys elsewhere than their characters do.
    """
    op.add_column("handovers", sa.Column("first_key", sa.String(17), nullable=True))
    if op.get_bind().dialect.name == "postgresql":
        op.alter_column("homes", "key", type_=sa.String(17, collation="C"))

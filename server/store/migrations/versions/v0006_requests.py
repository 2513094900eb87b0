"""Those who ask to be called, and what is still to be told."""

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"


def upgrade() -> None:
    """Make the tables of requests, of tries for their limits, and of what is to be told."""
    moment = sa.DateTime(timezone=True)
    op.create_table(
        "requests",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("sent", sa.String(32), nullable=False),
        sa.Column("name", sa.String(60), nullable=False),
        sa.Column("phone", sa.String(20), nullable=False),
        sa.Column("reach", sa.String(20), nullable=False),
        sa.Column("pace", sa.String(20), nullable=False),
        sa.Column("tried", sa.JSON(), nullable=True),
        sa.Column("asked", moment, nullable=False),
        sa.Column("taken", moment, nullable=True),
        sa.Column("taken_by", sa.String(60), nullable=True),
        sa.Column("done", moment, nullable=True),
        sa.Column("done_by", sa.String(60), nullable=True),
        sa.PrimaryKeyConstraint("id", name="pk_requests"),
        sa.UniqueConstraint("sent", name="uq_requests_sent"),
    )
    op.create_index("ix_requests_asked", "requests", ["asked"])
    op.create_index("ix_requests_done", "requests", ["done"])
    op.create_table(
        "request_tries",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("address", sa.String(64), nullable=False),
        sa.Column("phone", sa.String(20), nullable=False),
        sa.Column("at", moment, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_request_tries"),
    )
    op.create_index("ix_request_tries_at", "request_tries", ["at"])
    op.create_index("ix_request_tries_address_at", "request_tries", ["address", "at"])
    op.create_index("ix_request_tries_phone_at", "request_tries", ["phone", "at"])
    op.create_table(
        "outbox",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("request", sa.Integer(), nullable=False),
        sa.Column("way", sa.String(20), nullable=False),
        sa.Column("key", sa.String(32), nullable=False),
        sa.Column("due", moment, nullable=False),
        sa.Column("tries", sa.Integer(), nullable=False),
        sa.Column("why", sa.String(300), nullable=False),
        sa.Column("claim", sa.String(32), nullable=True),
        sa.Column("claimed_until", moment, nullable=True),
        sa.Column("sent", moment, nullable=True),
        sa.PrimaryKeyConstraint("id", name="pk_outbox"),
        sa.ForeignKeyConstraint(["request"], ["requests.id"], name="fk_outbox_request"),
        sa.UniqueConstraint("key", name="uq_outbox_key"),
    )
    op.create_index("ix_outbox_request", "outbox", ["request"])
    op.create_index("ix_outbox_way_sent_due", "outbox", ["way", "sent", "due"])

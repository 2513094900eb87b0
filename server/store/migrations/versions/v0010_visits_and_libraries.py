"""Appointments, second visits, who pays, cards to change, readers of requests, first keys of records, libraries."""

import sqlalchemy as sa
from alembic import op

revision = "0010"
down_revision = "0009"


def upgrade() -> None:
    """Make the tables of appointments and second visits, and the new columns of jobs, of records and of the trail.

    A record's fingerprint is made of its first key.
    A database that sorts by a language's rules may put keys elsewhere than their characters do, so that a range of
    keys would be no range of the index.
    Calls whose danger questions took longer than a minute are counted once more, for the question that took longest.
    """
    moment = sa.DateTime(timezone=True)
    op.create_table(
        "appointments",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("id", sa.String(120), nullable=False),
        sa.Column("call", sa.String(24), nullable=True),
        sa.Column("job", sa.String(24), nullable=True),
        sa.Column("day", sa.Date(), nullable=True),
        sa.Column("opens", sa.Integer(), nullable=True),
        sa.Column("closes", sa.Integer(), nullable=True),
        sa.Column("engineer", sa.String(60), nullable=False),
        sa.Column("why", sa.Text(), nullable=False),
        sa.Column("latest", moment, nullable=True),
        sa.Column("by", sa.String(60), nullable=False),
        sa.Column("at", moment, nullable=False),
        sa.Column("stands", sa.String(20), nullable=False),
        sa.Column("reason", sa.String(20), nullable=True),
        sa.PrimaryKeyConstraint("number", name="pk_appointments"),
        sa.UniqueConstraint("id", name="uq_appointments_id"),
        sa.ForeignKeyConstraint(["call"], ["calls.id"], name="fk_appointments_call"),
        sa.ForeignKeyConstraint(["job"], ["jobs.id"], name="fk_appointments_job"),
    )
    op.create_index("ix_appointments_call", "appointments", ["call", "number"])
    op.create_index("ix_appointments_job", "appointments", ["job", "number"])
    op.create_table(
        "job_returns",
        sa.Column("job", sa.String(24), nullable=False),
        sa.Column("follows", sa.String(24), nullable=False),
        sa.Column("call", sa.String(24), nullable=True),
        sa.Column("part", sa.Text(), nullable=False),
        sa.Column("who", sa.String(20), nullable=False),
        sa.Column("ready", sa.Date(), nullable=True),
        sa.PrimaryKeyConstraint("job", name="pk_job_returns"),
        sa.UniqueConstraint("follows", name="uq_job_returns_follows"),
        sa.ForeignKeyConstraint(["job"], ["jobs.id"], name="fk_job_returns_job"),
        sa.ForeignKeyConstraint(["follows"], ["jobs.id"], name="fk_job_returns_follows"),
        sa.ForeignKeyConstraint(["call"], ["calls.id"], name="fk_job_returns_call"),
    )
    op.add_column("jobs", sa.Column("travel", sa.Integer(), nullable=True))
    op.add_column("jobs", sa.Column("charge", sa.String(20), nullable=True))
    op.add_column("jobs", sa.Column("card", sa.String(20), nullable=True))
    op.add_column("jobs", sa.Column("card_words", sa.Text(), nullable=True))
    op.create_index("ix_jobs_card", "jobs", ["card", "closed"])
    op.add_column("audit", sa.Column("request", sa.Integer(), nullable=True))
    op.create_index("ix_audit_request", "audit", ["request", "id"])
    op.add_column("handovers", sa.Column("first_key", sa.String(17), nullable=True))
    if op.get_bind().dialect.name == "postgresql":
        op.alter_column("homes", "key", type_=sa.String(17, collation="C"))
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

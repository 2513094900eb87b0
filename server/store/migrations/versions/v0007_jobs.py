"""Jobs, what was written into each, and what was answered before it was closed."""

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"


def upgrade() -> None:
    """Make the tables of jobs, of their entries and of their answers."""
    moment = sa.DateTime(timezone=True)
    op.create_table(
        "jobs",
        sa.Column("id", sa.String(24), nullable=False),
        sa.Column("call", sa.String(24), nullable=True),
        sa.Column("key", sa.String(17), nullable=True),
        sa.Column("category", sa.String(60), nullable=False),
        sa.Column("range", sa.String(60), nullable=False),
        sa.Column("begun", moment, nullable=False),
        sa.Column("by", sa.String(60), nullable=False),
        sa.Column("closed", moment, nullable=True),
        sa.Column("closed_by", sa.String(60), nullable=True),
        sa.Column("cause", sa.String(200), nullable=True),
        sa.Column("words", sa.Text(), nullable=True),
        sa.Column("outcome", sa.String(20), nullable=True),
        sa.Column("phone", sa.String(3), nullable=True),
        sa.Column("minutes", sa.Integer(), nullable=True),
        sa.Column("predicted", sa.JSON(), nullable=True),
        sa.Column("taken", sa.JSON(), nullable=True),
        sa.Column("used", sa.JSON(), nullable=True),
        sa.Column("unsafe", sa.String(30), nullable=True),
        sa.Column("report_by", sa.Date(), nullable=True),
        sa.PrimaryKeyConstraint("id", name="pk_jobs"),
        sa.ForeignKeyConstraint(["call"], ["calls.id"], name="fk_jobs_call"),
        sa.UniqueConstraint("call", name="uq_jobs_call"),
    )
    for name in ("key", "by", "closed", "report_by"):
        op.create_index(f"ix_jobs_{name}", "jobs", [name])
    op.create_index("ix_jobs_category_range_cause", "jobs", ["category", "range", "cause"])
    _of_job("entries", moment)
    op.create_table(
        "job_answers",
        sa.Column("job", sa.String(24), nullable=False),
        sa.Column("article", sa.String(60), nullable=False),
        sa.Column("anchor", sa.String(120), nullable=False),
        sa.Column("answer", sa.String(300), nullable=False),
        sa.PrimaryKeyConstraint("job", "article", "anchor", name="pk_job_answers"),
        sa.ForeignKeyConstraint(["job"], ["jobs.id"], name="fk_job_answers_job"),
    )


def _of_job(what: str, moment: "sa.DateTime") -> None:
    table = f"job_{what}"
    op.create_table(
        table,
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("job", sa.String(24), nullable=False),
        sa.Column("id", sa.String(60), nullable=False),
        sa.Column("sequence", sa.BigInteger(), nullable=False),
        sa.Column("field", sa.String(160), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("by", sa.String(60), nullable=False),
        sa.Column("at", moment, nullable=False),
        sa.PrimaryKeyConstraint("number", name=f"pk_{table}"),
        sa.ForeignKeyConstraint(["job"], ["jobs.id"], name=f"fk_{table}_job"),
        sa.UniqueConstraint("job", "id", name=f"uq_{table}_job"),
    )

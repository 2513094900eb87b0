"""What the office's figures are counted from."""

import sqlalchemy as sa
from alembic import op

revision = "0009"
down_revision = "0008"


def upgrade() -> None:
    """Make the tables of finished calls and closed jobs, as short rows about nobody."""
    _calls()
    _stops()
    _jobs()
    _parts()


def _calls() -> None:
    moment = sa.DateTime(timezone=True)
    op.create_table(
        "figure_calls",
        sa.Column("call", sa.String(24), nullable=False),
        sa.Column("began", moment, nullable=False),
        sa.Column("closed", moment, nullable=False),
        sa.Column("settles", moment, nullable=False),
        sa.Column("week", sa.Integer(), nullable=False),
        sa.Column("category", sa.String(80), nullable=False),
        sa.Column("how", sa.String(20), nullable=False),
        sa.Column("home_id", sa.Integer(), nullable=True),
        sa.Column("danger", sa.Float(), nullable=True),
        sa.Column("back", sa.Boolean(), nullable=False),
        sa.Column("pace", sa.String(20), nullable=False),
        sa.Column("outdoor", sa.Float(), nullable=True),
        sa.Column("upto", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("call", name="pk_figure_calls"),
        sa.ForeignKeyConstraint(["home_id"], ["homes.id"], name="fk_figure_calls_home_id"),
    )
    op.create_index("ix_figure_calls_upto", "figure_calls", ["upto"])
    columns = ["week", "category", "how", "settles", "back", "danger", "outdoor"]
    op.create_index("ix_figure_calls_week", "figure_calls", columns)
    op.create_index("ix_figure_calls_home_id", "figure_calls", ["home_id", "began"])


def _stops() -> None:
    op.create_table(
        "figure_stops",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("call", sa.String(24), nullable=False),
        sa.Column("week", sa.Integer(), nullable=False),
        sa.Column("step", sa.String(200), nullable=False),
        sa.Column("alone", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_figure_stops"),
        sa.ForeignKeyConstraint(["call"], ["figure_calls.call"], name="fk_figure_stops_call"),
    )
    op.create_index("ix_figure_stops_call", "figure_stops", ["call"])
    op.create_index("ix_figure_stops_week", "figure_stops", ["week", "step", "alone"])


def _jobs() -> None:
    op.create_table(
        "figure_jobs",
        sa.Column("job", sa.String(24), nullable=False),
        sa.Column("closed", sa.DateTime(timezone=True), nullable=False),
        sa.Column("settles", sa.DateTime(timezone=True), nullable=False),
        sa.Column("week", sa.Integer(), nullable=False),
        sa.Column("category", sa.String(80), nullable=False),
        sa.Column("cause", sa.String(200), nullable=False),
        sa.Column("home_id", sa.Integer(), nullable=True),
        sa.Column("first", sa.String(200), nullable=False),
        sa.Column("second", sa.String(200), nullable=False),
        sa.Column("fixed", sa.Boolean(), nullable=False),
        sa.Column("returned", sa.Boolean(), nullable=False),
        sa.Column("returns", sa.Boolean(), nullable=False),
        sa.Column("minutes", sa.Integer(), nullable=True),
        sa.PrimaryKeyConstraint("job", name="pk_figure_jobs"),
        sa.ForeignKeyConstraint(["home_id"], ["homes.id"], name="fk_figure_jobs_home_id"),
    )
    op.create_index(
        "ix_figure_jobs_week", "figure_jobs", ["week", "settles", "fixed", "returned", "returns", "minutes"]
    )
    op.create_index("ix_figure_jobs_home_id", "figure_jobs", ["home_id", "cause", "closed"])


def _parts() -> None:
    op.create_table(
        "figure_parts",
        sa.Column("job", sa.String(24), nullable=False),
        sa.Column("part", sa.String(200), nullable=False),
        sa.Column("week", sa.Integer(), nullable=False),
        sa.Column("taken", sa.Boolean(), nullable=False),
        sa.Column("used", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("job", "part", name="pk_figure_parts"),
        sa.ForeignKeyConstraint(["job"], ["figure_jobs.job"], name="fk_figure_parts_job"),
    )
    op.create_index("ix_figure_parts_week", "figure_parts", ["week", "part", "taken", "used"])

"""The tables that the figures are counted from, as the newest migration leaves them.

A finished call and a closed job leave a short row each that says nothing about people.
So the office's pictures need neither the events nor anybody's data, and stay when those go.
"""

from typing import Final

from sqlalchemy import Boolean, Column, Float, ForeignKey, Index, Integer, String, Table

from server.store.tables import METADATA
from server.store.types import Moment


def _home() -> Column[int]:
    return Column("home_id", ForeignKey("homes.id"))


FIGURE_CALLS: Final = Table(
    "figure_calls",
    METADATA,
    Column("call", String(24), primary_key=True),
    Column("began", Moment, nullable=False),
    Column("closed", Moment, nullable=False),
    Column("settles", Moment, nullable=False),
    Column("week", Integer, nullable=False),
    Column("category", String(80), nullable=False),
    Column("how", String(20), nullable=False),
    _home(),
    Column("danger", Float),
    Column("back", Boolean, nullable=False),
    Column("pace", String(20), nullable=False),
    Column("outdoor", Float),
    Column("upto", Integer, nullable=False, index=True),
    Column("stuck", String(200)),
    Column("stuck_for", Float),
    Index("ix_figure_calls_week", "week", "category", "how", "settles", "back", "danger", "outdoor"),
    Index("ix_figure_calls_home_id", "home_id", "began"),
)
"""A finished call; `week` counts Mondays, `upto` is the last of its events that was looked at.

`stuck` is the danger question that took longest, `stuck_for` how many seconds.

From `settles` on one can say whether what was solved has lasted; `back` says that it has not.
"""

FIGURE_STOPS: Final = Table(
    "figure_stops",
    METADATA,
    Column("id", Integer, primary_key=True),
    Column("call", String(24), ForeignKey("figure_calls.call", name="fk_figure_stops_call"), nullable=False),
    Column("week", Integer, nullable=False),
    Column("step", String(200), nullable=False),
    Column("alone", Boolean, nullable=False),
    Index("ix_figure_stops_call", "call"),
    Index("ix_figure_stops_week", "week", "step", "alone"),
)
"""A step at which a walk of a call went no further."""

FIGURE_JOBS: Final = Table(
    "figure_jobs",
    METADATA,
    Column("job", String(24), primary_key=True),
    Column("closed", Moment, nullable=False),
    Column("settles", Moment, nullable=False),
    Column("week", Integer, nullable=False),
    Column("category", String(80), nullable=False),
    Column("cause", String(200), nullable=False),
    _home(),
    Column("first", String(200), nullable=False),
    Column("second", String(200), nullable=False),
    Column("fixed", Boolean, nullable=False),
    Column("returned", Boolean, nullable=False),
    Column("returns", Boolean, nullable=False),
    Column("minutes", Integer),
    Index("ix_figure_jobs_week", "week", "settles", "fixed", "returned", "returns", "minutes"),
    Index("ix_figure_jobs_home_id", "home_id", "cause", "closed"),
)
"""A closed job.

`returned` says that the same cause brought somebody back within 28 days, `returns` that this job is such a return.
"""

FIGURE_PARTS: Final = Table(
    "figure_parts",
    METADATA,
    Column("job", String(24), ForeignKey("figure_jobs.job", name="fk_figure_parts_job"), primary_key=True),
    Column("part", String(200), primary_key=True),
    Column("week", Integer, nullable=False),
    Column("taken", Boolean, nullable=False),
    Column("used", Boolean, nullable=False),
    Index("ix_figure_parts_week", "week", "part", "taken", "used"),
)
"""A part that was taken along to a job, used there, or both."""

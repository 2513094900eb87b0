"""The tables of jobs, as the newest migration leaves them."""

from typing import Final

from sqlalchemy import (
    JSON,
    BigInteger,
    Column,
    Date,
    ForeignKey,
    Index,
    Integer,
    String,
    Table,
    Text,
    UniqueConstraint,
)

from server.store.tables import METADATA
from server.store.types import Moment

JOBS: Final = Table(
    "jobs",
    METADATA,
    Column("id", String(24), primary_key=True),
    Column("call", String(24), ForeignKey("calls.id", name="fk_jobs_call"), unique=True),
    Column("key", String(17), index=True),
    Column("category", String(60), nullable=False),
    Column("range", String(60), nullable=False),
    Column("begun", Moment, nullable=False),
    Column("by", String(60), nullable=False, index=True),
    Column("closed", Moment, index=True),
    Column("closed_by", String(60)),
    Column("cause", String(200)),
    Column("words", Text),
    Column("outcome", String(20)),
    Column("phone", String(3)),
    Column("minutes", Integer),
    Column("predicted", JSON),
    Column("taken", JSON),
    Column("used", JSON),
    Column("unsafe", String(30)),
    Column("report_by", Date, index=True),
    Column("travel", Integer),
    Column("charge", String(20)),
    Column("card", String(20)),
    Column("card_words", Text),
    Index("ix_jobs_category_range_cause", "category", "range", "cause"),
    Index("ix_jobs_card", "card", "closed"),
)
"""A visit a row, one at most for a call; from `closed` on, how it was closed, None while it is open.

`by` is empty for a second visit that nobody has taken yet.
"""

ENTRIES: Final = Table(
    "job_entries",
    METADATA,
    Column("number", Integer, primary_key=True),
    Column("job", String(24), ForeignKey("jobs.id", name="fk_job_entries_job"), nullable=False),
    Column("id", String(60), nullable=False),
    Column("sequence", BigInteger, nullable=False),
    Column("field", String(160), nullable=False),
    Column("text", Text, nullable=False),
    Column("by", String(60), nullable=False),
    Column("at", Moment, nullable=False),
    UniqueConstraint("job", "id", name="uq_job_entries_job"),
)
"""What was written into a job once, a row; rows are added and never changed."""

ANSWERS: Final = Table(
    "job_answers",
    METADATA,
    Column("job", String(24), ForeignKey("jobs.id", name="fk_job_answers_job"), primary_key=True),
    Column("article", String(60), primary_key=True),
    Column("anchor", String(120), primary_key=True),
    Column("answer", String(300), nullable=False),
)
"""What was answered at each step before a job was closed, a row a step: the evidence its cause is learnt from."""

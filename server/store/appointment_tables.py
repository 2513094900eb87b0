"""The tables of appointments and of second visits, as the newest migration leaves them."""

from typing import Final

from sqlalchemy import Column, Date, ForeignKey, Index, Integer, String, Table, Text

from server.store.tables import METADATA
from server.store.types import Moment

APPOINTMENTS: Final = Table(
    "appointments",
    METADATA,
    Column("number", Integer, primary_key=True),
    Column("id", String(120), nullable=False, unique=True),
    Column("call", String(24), ForeignKey("calls.id", name="fk_appointments_call")),
    Column("job", String(24), ForeignKey("jobs.id", name="fk_appointments_job")),
    Column("day", Date),
    Column("opens", Integer),
    Column("closes", Integer),
    Column("engineer", String(60), nullable=False),
    Column("why", Text, nullable=False),
    Column("latest", Moment),
    Column("by", String(60), nullable=False),
    Column("at", Moment, nullable=False),
    Column("stands", String(20), nullable=False),
    Column("reason", String(20)),
    Index("ix_appointments_call", "call", "number"),
    Index("ix_appointments_job", "job", "number"),
)
"""What a visit came to, a row each time; the last row of a call, or of a job without one, is how it stands.

`stands` says whether a time was agreed or the visit was not made, and what is to become of it then; only what was
agreed has a time, only what was not made a reason.
"""

RETURNS: Final = Table(
    "job_returns",
    METADATA,
    Column("job", String(24), ForeignKey("jobs.id", name="fk_job_returns_job"), primary_key=True),
    Column("follows", String(24), ForeignKey("jobs.id", name="fk_job_returns_follows"), nullable=False, unique=True),
    Column("call", String(24), ForeignKey("calls.id", name="fk_job_returns_call")),
    Column("part", Text, nullable=False),
    Column("who", String(20), nullable=False),
    Column("ready", Date),
)
"""A job that goes on where another was closed: that one, the first call, the part, who fetches it by when."""

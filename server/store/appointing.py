"""How is what was agreed of a visit kept, in whichever transaction it was agreed?"""

from collections.abc import Mapping
from typing import Any, Final

from sqlalchemy import Connection, Row, insert, select

from kb.appointment import Appointment, NotMade, Turn, Window
from server.store.appointment_tables import APPOINTMENTS

AGREED: Final = "agreed"
"""How a row stands that holds a time."""


def turn_of(row: Row[Any]) -> Turn:
    """What a row says of its visit."""
    if row.stands != AGREED:
        return NotMade(row.stands, row.reason, row.why, row.by, row.at)
    return Appointment(Window(row.day, row.opens, row.closes), row.engineer, row.why, row.latest, row.by, row.at)


def agree(connection: Connection, id: str, agreed: Turn, call: str = "", job: str = "") -> None:
    """Keep what a call's visit came to, or that of a job that has none; what has the same id is kept once."""
    if agreed.at is None or bool(call) is bool(job):
        raise ValueError("Expected an appointment of one call or job that says when it was agreed. Give it both.")
    if connection.execute(select(APPOINTMENTS.c.number).where(APPOINTMENTS.c.id == id)).first():
        return
    row = {"id": id, "call": call or None, "job": job or None, "by": agreed.by, "at": agreed.at}
    connection.execute(insert(APPOINTMENTS).values(**row, **_said(agreed)))


def _said(turn: Turn) -> Mapping[str, Any]:
    if isinstance(turn, NotMade):
        return {"stands": turn.what, "reason": turn.reason, "why": turn.words, "engineer": ""}
    window = turn.window
    time = {"day": window.day, "opens": window.opens, "closes": window.closes}
    return {**time, "stands": AGREED, "engineer": turn.engineer, "why": turn.why, "latest": turn.latest}


def trail_of(connection: Connection, call: str = "", job: str = "") -> tuple[Turn, ...]:
    """Everything that a visit came to, the oldest first."""
    mine = APPOINTMENTS.c.call == call if call else APPOINTMENTS.c.job == job
    rows = connection.execute(select(APPOINTMENTS).where(mine).order_by(APPOINTMENTS.c.number)).all()
    return tuple(turn_of(row) for row in rows)

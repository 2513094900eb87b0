"""How is what was agreed of a visit kept, in whichever transaction it was agreed?"""

from typing import Any

from sqlalchemy import Connection, Row, insert, select

from kb.appointment import Appointment, Window
from server.store.appointment_tables import APPOINTMENTS


def agreed_of(row: Row[Any]) -> Appointment:
    """The appointment that a row holds."""
    return Appointment(Window(row.day, row.opens, row.closes), row.engineer, row.why, row.latest, row.by, row.at)


def agree(connection: Connection, id: str, agreed: Appointment, call: str = "", job: str = "") -> None:
    """Keep an appointment of a call, or of a job that has none; one of the same id is kept once."""
    if agreed.at is None or bool(call) is bool(job):
        raise ValueError("Expected an appointment of one call or job that says when it was agreed. Give it both.")
    if connection.execute(select(APPOINTMENTS.c.number).where(APPOINTMENTS.c.id == id)).first():
        return
    window = agreed.window
    row = {
        "id": id,
        "call": call or None,
        "job": job or None,
        "day": window.day,
        "opens": window.opens,
        "closes": window.closes,
        "engineer": agreed.engineer,
        "why": agreed.why,
        "latest": agreed.latest,
        "by": agreed.by,
        "at": agreed.at,
    }
    connection.execute(insert(APPOINTMENTS), row)


def trail_of(connection: Connection, call: str = "", job: str = "") -> tuple[Appointment, ...]:
    """Everything that was agreed of a visit, the oldest first."""
    mine = APPOINTMENTS.c.call == call if call else APPOINTMENTS.c.job == job
    rows = connection.execute(select(APPOINTMENTS).where(mine).order_by(APPOINTMENTS.c.number)).all()
    return tuple(agreed_of(row) for row in rows)

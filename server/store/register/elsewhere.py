"""Where else than in the register does a home's key, or somebody's word, stand?"""

from typing import Final

from sqlalchemy import Column, Connection, delete, func, or_, select, update

from server.store.appointment_tables import APPOINTMENTS
from server.store.call_tables import CALLS, EVENTS
from server.store.handover_tables import HANDOVERS
from server.store.job_tables import JOBS
from server.store.register.tables import PHONES
from server.store.request_tables import OUTBOX, REQUESTS
from server.store.tables import HOMES

KEYED: Final[tuple[Column[str], ...]] = (CALLS.c.home, HANDOVERS.c.key, JOBS.c.key)
"""Every column, but for the register's own, that names a home by its key."""

SPOKEN: Final = ("caller", "words", "told", "noted", "promised", "booked")
"""What happens in a call that holds a caller's name, number or words."""


def follow_key(connection: Connection, old: str, new: str) -> None:
    """Let everything that names a home by its key name it by its new one.

    A handover record remembers the key it was begun for, which its fingerprint is made of.
    """
    first = func.coalesce(HANDOVERS.c.first_key, old)
    connection.execute(update(HANDOVERS).where(HANDOVERS.c.key == old).values(first_key=first))
    for column in KEYED:
        connection.execute(update(column.table).where(column == old).values({column.name: new}))


def forget_spoken(connection: Connection, home_id: int) -> None:
    """Erase what was said in the closed calls about a home, whoever said it: nobody can tell any more whose it was."""
    key = select(HOMES.c.key).where(HOMES.c.id == home_id).scalar_subquery()
    closed = select(CALLS.c.id).where(CALLS.c.home == key, CALLS.c.closed.is_not(None))
    jobs = select(JOBS.c.id).where(JOBS.c.key == key)
    theirs = or_(APPOINTMENTS.c.call.in_(closed), APPOINTMENTS.c.job.in_(jobs))
    connection.execute(update(APPOINTMENTS).where(theirs).values(why=""))
    connection.execute(delete(EVENTS).where(EVENTS.c.call.in_(closed), EVENTS.c.did.in_(SPOKEN)))


def forget_requests(connection: Connection, person_id: int) -> None:
    """Erase every request to ring one of somebody's numbers."""
    numbers = select(PHONES.c.number).where(PHONES.c.person_id == person_id)
    theirs = select(REQUESTS.c.id).where(REQUESTS.c.phone.in_(numbers))
    connection.execute(delete(OUTBOX).where(OUTBOX.c.request.in_(theirs)))
    connection.execute(delete(REQUESTS).where(REQUESTS.c.phone.in_(numbers)))

"""How is a person forgotten, and what stays although they are?"""

from dataclasses import dataclass
from datetime import date

from sqlalchemy import Connection, Engine, delete, select

from server.store.register import papers, seeking
from server.store.register.audit import Did, trace
from server.store.register.elsewhere import forget_requests, forget_spoken
from server.store.register.papers import Paper
from server.store.register.tables import PEOPLE
from server.store.tables import HOMES

_FIELDS = ("people.name", "people.role", "people.phones", "people.needs", "calls.words", "requests")


@dataclass(frozen=True, slots=True)
class Erased:
    """What was done for somebody who asked to be forgotten.

    `fields` names what was erased, `papers` are those that the law has the firm keep, and `also_left` says in plain
    words what stays because it is about the home.
    """

    fields: tuple[str, ...]
    papers: tuple[Paper, ...]
    also_left: tuple[str, ...]


ALSO_LEFT = (
    "The home's address and what is fitted there stay: whoever lives there next must be safe, and no name stands with "
    "them.",
    "A call that is still open keeps what was said in it until it is closed; ask again then.",
    "What an engineer measured and did stays: it names the home.",
    "The trail of who looked and what they changed stays: it names our own people and fields, never yours.",
    "Backups made before today hold the old data until they are replaced.",
)
"""What is left whoever is erased."""


def erase(connection: Connection, person_id: int, by: str, today: date) -> Erased | None:
    """Erase a person, their phones and their needs; None for no such person."""
    home_id = connection.execute(select(PEOPLE.c.home_id).where(PEOPLE.c.id == person_id)).scalar()
    if home_id is None:
        return None
    # The home first and its people after it, as everybody does, so that no two wait for each other.
    connection.execute(select(HOMES.c.id).where(HOMES.c.id == home_id).with_for_update(key_share=True))
    forget_requests(connection, person_id)
    if not connection.execute(delete(PEOPLE).where(PEOPLE.c.id == person_id)).rowcount:
        return None
    forget_spoken(connection, home_id)
    papers.drop_outdated(connection, today)
    seeking.renew(connection, home_id)
    trace(connection, by, Did.ERASED, [home_id], _FIELDS)
    return Erased(_FIELDS, papers.of_person(connection, person_id), ALSO_LEFT)


def sweep(reading: Engine) -> None:
    """Let the database's own log forget, too, what was erased.

    SQLite's file keeps nothing of a deleted row (secure_delete), but its log would until it is next written back.
    PostgreSQL does the like by itself when it vacuums.
    """
    if reading.dialect.name == "sqlite":
        with reading.connect() as connection:
            connection.exec_driver_sql("PRAGMA wal_checkpoint(TRUNCATE)")

"""Which papers does the law make the firm keep, and until when?"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlalchemy import ColumnElement, Connection, Row, delete, insert, select

from kb.register import KEPT_BY_LAW, Person, Record, kept_until
from server.store.register.tables import KEPT_PAPERS


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper kept by law: what, made when, kept until when under which rule, and the name and address it was for."""

    kind: str
    made: date
    until: date
    name: str
    address: str

    @property
    def what(self) -> str:
        """The paper in plain words."""
        return KEPT_BY_LAW[self.kind].what

    @property
    def rule(self) -> str:
        """The law that has it kept."""
        return KEPT_BY_LAW[self.kind].rule


def keep(connection: Connection, home_id: int, record: Record, person: Person | None, kind: str, made: date) -> None:
    """Note that a paper was made for a home and a person, with the name and address it was made for."""
    row = {
        "home_id": home_id,
        "person_id": person.id if person else None,
        "kind": kind,
        "made": made,
        "until": kept_until(kind, made),
        "name": person.name if person else "",
        "address": record.address.spoken if record.address else "",
    }
    connection.execute(insert(KEPT_PAPERS).values(**row))


def of_home(connection: Connection, home_id: int) -> tuple[Paper, ...]:
    """Every paper kept for a home, the oldest first."""
    return tuple(_papers(connection, KEPT_PAPERS.c.home_id == home_id))


def of_person(connection: Connection, person_id: int) -> tuple[Paper, ...]:
    """Every paper kept that was made for a person, the oldest first."""
    return tuple(_papers(connection, KEPT_PAPERS.c.person_id == person_id))


def drop_outdated(connection: Connection, today: date) -> int:
    """Let go of every paper that need no longer be kept, and say how many they were."""
    return connection.execute(delete(KEPT_PAPERS).where(KEPT_PAPERS.c.until < today)).rowcount


def _papers(connection: Connection, which: ColumnElement[bool]) -> Iterator[Paper]:
    wanted = select(KEPT_PAPERS).where(which).order_by(KEPT_PAPERS.c.made, KEPT_PAPERS.c.id)
    return (_paper(row) for row in connection.execute(wanted).all())


def _paper(row: Row[Any]) -> Paper:
    return Paper(row.kind, row.made, row.until, row.name, row.address)

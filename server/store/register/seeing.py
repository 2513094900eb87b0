"""What is held about a home and its people, all of it, for whoever asks to see it?"""

from dataclasses import dataclass, replace

from sqlalchemy import Connection, Row

from kb.register import Record
from server.store.register import cards, papers
from server.store.register.audit import Entry, trail
from server.store.register.cards import Printed
from server.store.register.papers import Paper
from server.store.register.reading import record_of


@dataclass(frozen=True, slots=True)
class Seen:
    """Everything that is held: the record, the cards, the papers, and who looked at it or changed it."""

    record: Record
    cards: tuple[Printed, ...]
    papers: tuple[Paper, ...]
    trail: tuple[Entry, ...]


def all_of(connection: Connection, home: "Row[tuple[object, ...]]", person_id: int | None) -> Seen:
    """Everything about a home; of its people only one where one is named, since nobody is shown another's data."""
    record = record_of(connection, home)
    kept = papers.of_home(connection, home.id)
    if person_id is not None:
        record = replace(record, people=tuple(person for person in record.people if person.id == person_id))
        kept = papers.of_person(connection, person_id)
    return Seen(record, cards.of_home(connection, home.id), kept, trail(connection, home.id))

"""Which fields of a record differ? Their names alone, for a trail that must hold no values."""

from collections.abc import Iterator
from typing import Final

from kb.register.people import Person
from kb.register.record import Record

_WHOLE: Final = ("address", "appliances", "alarms", "places")
_OF_PEOPLE: Final = ("name", "role", "phones", "needs")


def changed(before: Record | None, after: Record) -> tuple[str, ...]:
    """The names of the fields that are not as they were; of a new record, those with something in them."""
    old = before or Record(after.key, ())
    return (*_of_home(old, after), *_of_people(old.people, after.people))


def _of_home(old: Record, new: Record) -> Iterator[str]:
    yield from (name for name in _WHOLE if getattr(old, name) != getattr(new, name))
    yield from (name for name in ("facts", "marks", "limits") if getattr(old.known, name) != getattr(new.known, name))


def _of_people(old: tuple[Person, ...], new: tuple[Person, ...]) -> Iterator[str]:
    before = {person.id: person for person in old if person.id is not None}
    stayed = {person.id: person for person in new if person.id in before}
    if len(stayed) < len(old) or len(stayed) < len(new):
        yield "people"
    for name in _OF_PEOPLE:
        if any(getattr(before[id], name) != getattr(person, name) for id, person in stayed.items()):
            yield f"people.{name}"

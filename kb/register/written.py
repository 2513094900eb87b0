"""How does a record become its fields, as somebody would write them?"""

from collections.abc import Iterator, Mapping
from dataclasses import fields
from hashlib import blake2b

from kb.facts import GaugeMarks
from kb.numbers import shown
from kb.register.alarms import Alarm
from kb.register.appliances import Appliance
from kb.register.people import Need, Person
from kb.register.record import Record


def written(record: Record, region: str) -> dict[str, str]:
    """A record's fields with something in them, as they would be written."""
    return {path: words for path, words in _fields(record, region) if words}


def version_of(fields: Mapping[str, str]) -> str:
    """A short stand-in for fields as they are written, all but the key, by which a later change is noticed.

    It begins with letters, so that no spreadsheet takes it for a figure.
    """
    kept = repr(sorted((path, words) for path, words in fields.items() if words and path != "key"))
    return f"v-{blake2b(kept.encode(), digest_size=6).hexdigest()}"


def _fields(record: Record, region: str) -> Iterator[tuple[str, str]]:
    yield "key", record.key
    if record.address:
        yield from ((f"address.lines[{n}]", line.strip()) for n, line in enumerate(record.address.lines))
        yield "address.town", record.address.town.strip()
        yield "address.postcode", record.address.postcode
    yield from ((f"facts.{fact}", value) for fact, value in record.known.facts.items())
    yield from ((f"marks.{each.name}", str(getattr(record.known.marks, each.name))) for each in fields(GaugeMarks))
    yield from ((f"limits.{action}", str(most)) for action, most in record.known.limits.items())
    yield from ((f"places.{place}", words.strip()) for place, words in record.places.items())
    for n, appliance in enumerate(record.appliances):
        yield from _of(f"appliances[{n}]", appliance)
    for n, alarm in enumerate(record.alarms):
        yield from _of(f"alarms[{n}]", alarm)
    for n, person in enumerate(record.people):
        yield from ((f"people[{n}].{name}", words) for name, words in fields_of_person(person, region))


def fields_of_person(person: Person, region: str) -> Iterator[tuple[str, str]]:
    """A person's fields as they would be written, seen from the person."""
    yield "name", person.name.strip()
    yield "role", person.role
    yield from ((f"phones[{n}]", shown(number, region)) for n, number in enumerate(person.phones))
    for n, need in enumerate(person.needs):
        yield from _of(f"needs[{n}]", need)


def _of(at: str, item: Need | Appliance | Alarm) -> Iterator[tuple[str, str]]:
    for each in fields(item):
        value = getattr(item, each.name)
        yield f"{at}.{each.name}", "" if value is None else str(value).strip()

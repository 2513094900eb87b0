"""Can a record be kept as it is written?"""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import date
from typing import Final, TypeVar

from kb import keys
from kb.facts import values_of
from kb.home import PLACES
from kb.register.address import Address
from kb.register.alarms import ALARMS, Alarm
from kb.register.appliances import FUELS, KINDS, Appliance
from kb.register.mistakes import Mistake
from kb.register.people import NEEDS, ROLES, Need, Person
from kb.register.record import Record

LONGEST: Final = 200
"""The most characters that any words about a home may have."""

_E164: Final = re.compile(r"\+[1-9][0-9]{6,14}")
_RANGE: Final = 80
_Item = TypeVar("_Item")


def mistakes_in(record: Record, today: date) -> tuple[Mistake, ...]:
    """Everything that must be mended before a record can be kept, all at once."""
    return (
        *_in_key(record.key),
        *_in_facts(record.known.facts),
        *_in_places(record.places),
        *(each.within("address") for each in (_in_address(record.address) if record.address else ())),
        *_each("people", record.people, lambda person: _in_person(person, today)),
        *_each("appliances", record.appliances, _in_appliance),
        *_each("alarms", record.alarms, _in_alarm),
        *_none_at_all("appliances", record.appliances, "at least the appliance the card is for"),
    )


def _in_key(key: str) -> Iterator[Mistake]:
    if keys.tidy(key) != key:
        yield Mistake("key", "a key as it is printed", repr(key), "Tidy it, or make a new one.")


def _in_facts(facts: Mapping[str, str]) -> Iterator[Mistake]:
    for fact, value in facts.items():
        values = values_of(fact)
        if values is None:
            yield Mistake("facts", "a fact that there is", repr(fact), "Take it out.")
        else:
            yield from _closed(f"facts.{fact}", value, values)


def _in_places(places: Mapping[str, str]) -> Iterator[Mistake]:
    for place, words in places.items():
        yield from _closed("places", place, PLACES)
        yield from _words(f"places.{place}", words)


def _in_address(address: Address) -> Iterator[Mistake]:
    yield from _none_at_all("lines", address.lines, "at least the house and street")
    for number, line in enumerate(address.lines):
        yield from _words(f"lines[{number}]", line)
    yield from _words("town", address.town)
    yield from _words("postcode", address.postcode)


def _in_person(person: Person, today: date) -> Iterator[Mistake]:
    yield from _words("name", person.name)
    yield from _closed("role", person.role, ROLES)
    for number, phone in enumerate(person.phones):
        if not _E164.fullmatch(phone):
            yield Mistake(f"phones[{number}]", "a number in E.164", repr(phone), "Read it with read_phone first.")
    yield from _each("needs", person.needs, lambda need: _in_need(need, today))
    kinds = [need.kind for need in person.needs]
    if len(set(kinds)) < len(kinds):
        yield Mistake("needs", "each need once", ", ".join(sorted(kinds)), "Keep the one that was said last.")


def _in_need(need: Need, today: date) -> Iterator[Mistake]:
    yield from _closed("kind", need.kind, NEEDS)
    if need.consented > today:
        yield Mistake("consented", "a day that has been", str(need.consented), "Give the day they agreed to it.")
    if need.reviewed and not need.consented <= need.reviewed <= today:
        found = str(need.reviewed)
        yield Mistake("reviewed", "a day from the consent to today", found, "Give the day they were asked again.")


def _in_appliance(appliance: Appliance) -> Iterator[Mistake]:
    yield from _words("plate", appliance.plate)
    yield from _words("range", appliance.range, _RANGE, needed=False)
    yield from _words("serial", appliance.serial, needed=False)
    yield from _closed("fuel", appliance.fuel, FUELS)
    yield from _closed("kind", appliance.kind, KINDS)
    if appliance.fitted and appliance.warranty_ends and appliance.warranty_ends < appliance.fitted:
        found = f"{appliance.warranty_ends}, fitted {appliance.fitted}"
        yield Mistake("warranty_ends", "a day after it was fitted", found, "Mend whichever is wrong.")


def _in_alarm(alarm: Alarm) -> Iterator[Mistake]:
    yield from _closed("kind", alarm.kind, ALARMS)
    yield from _words("place", alarm.place)


def _each(field: str, items: Iterable[_Item], check: Callable[[_Item], Iterable[Mistake]]) -> Iterator[Mistake]:
    for number, item in enumerate(items):
        for mistake in check(item):
            yield mistake.within(f"{field}[{number}]")


def _none_at_all(field: str, items: tuple[object, ...], expected: str) -> Iterator[Mistake]:
    if not items:
        yield Mistake(field, expected, "nothing", "Fill it in.")


def _closed(field: str, value: str | None, values: Iterable[str]) -> Iterator[Mistake]:
    if value is not None and value not in values:
        yield Mistake(field, f"one of {', '.join(values)}", repr(value), "Choose from these.")


def _words(field: str, words: str, longest: int = LONGEST, needed: bool = True) -> Iterator[Mistake]:
    if needed and not words.strip():
        yield Mistake(field, "some words", "nothing", "Fill it in.")
    if len(words) > longest:
        yield Mistake(field, f"at most {longest} characters", str(len(words)), "Shorten it.")
    if not words.replace("\u00a0", " ").isprintable():
        yield Mistake(field, "plain words in one line", repr(words), "Take out what cannot be printed.")

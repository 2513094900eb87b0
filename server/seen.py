"""How is everything that is held about a home told to the person who asks to see it?"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from kb.days import full_day
from kb.facts import COUNTS, FACT_NAMES, FACTS, LIMIT_NAMES
from kb.home import PLACES
from kb.register import ALARMS, FUELS, KINDS, NEEDS, ROLES, Appliance, Person, Record, review_due
from server.store.register import Did, Entry, Erased, Paper, Seen

_DID = {
    Did.FOUND: "was shown in a search",
    Did.READ: "was read",
    Did.CHANGED: "was changed",
    Did.NEW_KEY: "got a new key",
    Did.PRINTED: "had a card printed",
    Did.KEPT: "had a paper noted",
    Did.SHOWN: "was put together for somebody who asked",
    Did.ERASED: "had somebody erased",
}


_FIELDS = {
    "places": "where things are",
    "facts": "what is known of the heating",
    "marks": "gauge marks",
    "people.name": "names",
    "people.role": "how people belong to it",
    "people.phones": "phone numbers",
    "people.needs": "needs",
    "calls.words": "what was said in calls",
    "requests": "requests to call",
}
"""What a field of the trail is called where its own name is no plain word."""

_SIZES = {"a6": "A6", "a5": "A5, large print", "id1": "the size of a bank card"}


@dataclass(frozen=True, slots=True)
class Section:
    """A heading and the lines under it, in plain words, for a page, a printer or a terminal."""

    title: str
    lines: tuple[str, ...]


def sheet(seen: Seen) -> tuple[Section, ...]:
    """All of it, section by section; which of our own people looked is not told, that they did is."""
    record = seen.record
    people = (Section(person.name, tuple(_of_person(person))) for person in record.people)
    sections = (
        Section("The home", tuple(_of_home(record))),
        *people,
        *(Section(each.plate, tuple(_of_appliance(each))) for each in record.appliances),
        Section("Alarms", tuple(_ends(f"{ALARMS[each.kind]}, {each.place}", each.ends) for each in record.alarms)),
        Section("Cards printed", tuple(f"{_SIZES[card.size]}, {full_day(card.when)}" for card in seen.cards)),
        Section("Papers we must keep", tuple(_paper(paper) for paper in seen.papers)),
        Section("Who looked, and when", tuple(_trace(entry) for entry in seen.trail)),
    )
    return tuple(section for section in sections if section.lines)


def text(sections: Iterable[Section]) -> str:
    """Sections as they are printed, an empty line between them."""
    return "\n".join(f"{part.title}\n" + "".join(f"  {line}\n" for line in part.lines) for part in sections)


def farewell(erased: Erased) -> tuple[Section, ...]:
    """What was erased, what stays, and why."""
    sections = (
        Section("Erased", tuple(_capital(_field(field)) for field in erased.fields)),
        Section("Kept because the law says so", tuple(_paper(paper) for paper in erased.papers)),
        Section("Left", erased.also_left),
    )
    return tuple(section for section in sections if section.lines)


def _of_home(record: Record) -> Iterator[str]:
    if record.address:
        yield f"Address: {record.address.spoken}"
    yield f"Key: {record.key}"
    for fact, value in record.known.facts.items():
        yield f"{FACT_NAMES.get(fact) or _capital(fact.replace('-', ' '))}: {_value(fact, value)}"
    marks = record.known.marks
    yield f"Pressure gauge: low mark {marks.low:g} bar, aim {marks.aim:g} bar, high mark {marks.high:g} bar"
    for action, most in record.known.limits.items():
        yield f"{LIMIT_NAMES[action]}: {f'at most {most}' if most else 'not at all'}"
    for place, words in record.places.items():
        yield f"{_capital(PLACES[place])}: {words}"


def _value(fact: str, value: str) -> str:
    """A fact's value in plain words; the last of a count also means more."""
    return FACTS.get(fact, {}).get(value) or (f"{value} or more" if value == COUNTS[-1] else value)


def _of_person(person: Person) -> Iterator[str]:
    yield ROLES[person.role].capitalize()
    for phone in person.phones:
        yield f"Phone: {phone}"
    for need in person.needs:
        asked = f"agreed to on {full_day(need.consented)}, to be asked again by {full_day(review_due(need))}"
        yield f"{NEEDS[need.kind].capitalize()} ({asked})"


def _of_appliance(appliance: Appliance) -> Iterator[str]:
    for label, value in (
        ("Kind", KINDS.get(appliance.kind or "")),
        ("Fuel", FUELS.get(appliance.fuel or "")),
        ("Serial number", appliance.serial),
        ("Fitted", full_day(appliance.fitted)),
        ("Serviced", full_day(appliance.serviced)),
        ("Next service", full_day(appliance.next_service)),
        ("Warranty ends", full_day(appliance.warranty_ends)),
    ):
        if value:
            yield f"{label}: {value}"


def _paper(paper: Paper) -> str:
    whose = f" for {paper.name}" if paper.name else ""
    made = f"{paper.what.capitalize()}{whose} of {full_day(paper.made)}"
    return f"{made}, kept until {full_day(paper.until)}: {paper.rule}."


def _trace(entry: Entry) -> str:
    fields = ", ".join(map(_field, entry.fields))
    return f"{full_day(entry.at)}, {entry.at:%H:%M} UTC: it {_DID[entry.did]} ({fields})"


def _field(name: str) -> str:
    """What a field of the trail is called."""
    if name.startswith("card."):
        return f"card {_SIZES.get(name.removeprefix('card.'), name)}"
    return _FIELDS.get(name) or name.replace("-", " ")


def _ends(what: str, ends: date | None) -> str:
    return f"{_capital(what)}, to be replaced by {full_day(ends)}" if ends else _capital(what)


def _capital(words: str) -> str:
    """The same words as the beginning of a line; initials keep their capitals."""
    return words[:1].upper() + words[1:]

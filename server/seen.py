"""How is everything that is held about a home told to the person who asks to see it?"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from kb.facts import FACTS
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
        Section("Cards printed", tuple(f"{card.size}, {card.when:%d %B %Y}" for card in seen.cards)),
        Section("Papers we must keep", tuple(_paper(paper) for paper in seen.papers)),
        Section("Who looked, and when", tuple(_trace(entry) for entry in seen.trail)),
    )
    return tuple(section for section in sections if section.lines)


def farewell(erased: Erased) -> tuple[Section, ...]:
    """What was erased, what stays, and why."""
    sections = (
        Section("Erased", tuple(field.removeprefix("people.") for field in erased.fields)),
        Section("Kept because the law says so", tuple(_paper(paper) for paper in erased.papers)),
        Section("Left", erased.also_left),
    )
    return tuple(section for section in sections if section.lines)


def _of_home(record: Record) -> Iterator[str]:
    if record.address:
        yield f"Address: {record.address.spoken}"
    yield f"Key: {record.key}"
    for fact, value in record.known.facts.items():
        yield f"{fact.replace('-', ' ').capitalize()}: {FACTS.get(fact, {}).get(value, value)}"
    marks = record.known.marks
    yield f"Gauge: low {marks.low}, aim {marks.aim}, high {marks.high} bar"
    for action, most in record.known.limits.items():
        yield f"At most, {action.replace('-', ' ')}: {most}"
    for place, words in record.places.items():
        yield f"Where to find {PLACES[place]}: {words}"


def _of_person(person: Person) -> Iterator[str]:
    yield ROLES[person.role].capitalize()
    for phone in person.phones:
        yield f"Phone: {phone}"
    for need in person.needs:
        asked = f"agreed to on {_day(need.consented)}, to be asked again by {_day(review_due(need))}"
        yield f"{NEEDS[need.kind].capitalize()} ({asked})"


def _of_appliance(appliance: Appliance) -> Iterator[str]:
    for label, value in (
        ("Kind", KINDS.get(appliance.kind or "")),
        ("Fuel", FUELS.get(appliance.fuel or "")),
        ("Serial number", appliance.serial),
        ("Fitted", _day(appliance.fitted)),
        ("Serviced", _day(appliance.serviced)),
        ("Next service", _day(appliance.next_service)),
        ("Warranty ends", _day(appliance.warranty_ends)),
    ):
        if value:
            yield f"{label}: {value}"


def _paper(paper: Paper) -> str:
    whose = f" for {paper.name}" if paper.name else ""
    made = f"{paper.what.capitalize()}{whose} of {_day(paper.made)}"
    return f"{made}, kept until {_day(paper.until)}: {paper.rule}."


def _trace(entry: Entry) -> str:
    return f"{entry.at:%d %B %Y, %H:%M} UTC: it {_DID[entry.did]} ({', '.join(entry.fields)})"


def _ends(what: str, ends: date | None) -> str:
    words = what[0].upper() + what[1:]
    return f"{words}, replace by {_day(ends)}" if ends else words


def _day(day: date | None) -> str:
    return f"{day.day} {day:%B %Y}" if day else ""

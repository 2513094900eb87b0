"""What does a call leave for whoever comes next?

One page: who and where, danger with times, the home, the caller's own words, what was tried and how often, how soon
and why, what was promised.
A line that nobody asked about says so, since a gap in a note is read as "nothing".
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final
from zoneinfo import ZoneInfo

from kb import appointment
from kb.appointment import NotMade
from kb.article import Pace
from kb.days import full_day
from kb.desk.events import CALLER_FIELDS, FLAGS, HOW_CLOSED, TOLD_FIELDS, Did
from kb.desk.reading import Reading
from kb.desk.script import Place
from kb.desk.words import PACE_WORDS, SAID_WORDS, clock, day_and_time
from kb.facts import FACT_NAMES, FACTS, TRIED
from kb.guide import By
from kb.home import Home
from kb.numbers import shown, to_ring
from kb.register import NEEDS, ROLES, Record
from kb.triage.causes import Chance

NOT_ASKED: Final = "not asked"
_TWO: Final = 2


@dataclass(frozen=True, slots=True)
class Line:
    """What was asked or looked at, what came of it, and for phones the links that ring them."""

    name: str
    words: str
    ring: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Section:
    """A part of the note."""

    title: str
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Note:
    """The note of a call: its heading, how soon, and its parts in the order in which they are needed."""

    title: str
    pace: Pace
    pace_words: str
    sections: tuple[Section, ...]


def note(
    reading: Reading,
    zone: ZoneInfo,
    home: Home | None = None,
    record: Record | None = None,
    causes: Sequence[Chance] = (),
    titles: Mapping[str, str] | None = None,
    region: str = "",
) -> Note:
    """The note of a call; `titles` are the articles' own, `causes` the likeliest first.

    Phone numbers are written as people of the region write them.
    """
    call = reading.call
    began = day_and_time(call.began, zone) if call.began else ""
    sections = (
        Section("Who rang", tuple(_who(reading, record, region))),
        Section("Danger, asked before anything else", tuple(_danger(reading, zone))),
        Section("The home", tuple(_home(reading, home, record))),
        Section("In their own words", tuple(_words(reading, zone))),
        Section("What works, what is shown", tuple(_told(reading))),
        *(_fault(place, titles or {}) for place in reading.places),
        Section("Who is there, how cold it is", tuple(_people(reading))),
        Section("How soon, and why", tuple(_pace(reading, causes))),
        Section("The visit", tuple(_visit(reading, zone))),
        Section("Promised and closed", tuple(_promised(reading, zone))),
    )
    return Note(f"Call of {began}", reading.pace, PACE_WORDS[reading.pace], sections)


def _who(reading: Reading, record: Record | None, region: str) -> Iterator[Line]:
    call = reading.call
    for name, words in CALLER_FIELDS.items():
        known = record.address.spoken if record and record.address and name == "address" else ""
        said = call.caller.get(name, "")
        ring = _rings((said,), region) if name == "phone" else ()
        yield Line(words, ", ".join(number for number, _ in ring) or said or known or NOT_ASKED, ring)
    for person in record.people if record else ():
        who = f"{person.name}, {ROLES.get(person.role, person.role)}"
        phones = (shown(phone, region) if region else phone for phone in person.phones)
        yield Line("In the register", ", ".join((who, *phones)), _rings(person.phones, region))
    for flag in sorted(call.flags):
        yield Line("The caller", FLAGS.get(flag, flag))


def _rings(phones: Iterable[str], region: str) -> tuple[tuple[str, str], ...]:
    return tuple(filter(None, (to_ring(phone, region) for phone in phones))) if region else ()


def _danger(reading: Reading, zone: ZoneInfo) -> Iterator[Line]:
    for asked in reading.agenda.answered:
        yield Line(asked.step.title, f"{SAID_WORDS[asked.said]} ({clock(asked.at, zone)})")
    yes = reading.agenda.answered[-1].step if reading.agenda.end is not None else None
    for step in reading.agenda.waiting:
        if step is not yes:
            yield Line(step.title, NOT_ASKED)
    if reading.agenda.end is not None:
        yield Line("This ended the fault questions", reading.agenda.end.title)
    for why in reading.agenda.slips:
        yield Line("A yes was taken back", why)


def _home(reading: Reading, home: Home | None, record: Record | None) -> Iterator[Line]:
    facts = {**(home.known.facts if home else {}), **(reading.place.standing.facts if reading.place else {})}
    yield Line("Appliance", home.appliance if home else "not known")
    yield Line("Key of the card", home.key if home else "not known")
    for fact, name in FACT_NAMES.items():
        yield Line(name, FACTS[fact].get(facts.get(fact, ""), NOT_ASKED))
    first = record.appliances[0] if record and record.appliances else None
    fitted = home.fitted if home else None
    serviced = first.serviced if first else None
    yield Line("Fitted", full_day(fitted) if fitted else "not known")
    yield Line("Last service", full_day(serviced) if serviced else "not known")
    if first and first.serial:
        yield Line("Serial number", first.serial)
    yield Line("Rang before, within 28 days", _day(reading.call.repeat) or "not known of")


def _day(written: str) -> str:
    """A day that was kept as ISO 8601 writes it, as people read it."""
    try:
        return full_day(date.fromisoformat(written))
    except ValueError:
        return written


def _words(reading: Reading, zone: ZoneInfo) -> Iterator[Line]:
    for quoted in reading.call.words:
        yield Line(clock(quoted.at, zone), f"“{quoted.words}”")
    if not reading.call.words:
        yield Line("Their words", NOT_ASKED)
    for noted in reading.call.notes:
        yield Line(f"Noted {clock(noted.at, zone)}", noted.words)


def _told(reading: Reading) -> Iterator[Line]:
    for name, words in TOLD_FIELDS.items():
        said = reading.call.told.get(name, "")
        yield Line(words, SAID_WORDS.get(said, f"“{said}”" if name == "code" and said else said) or NOT_ASKED)


def _fault(place: Place, titles: Mapping[str, str]) -> Section:
    return Section(titles.get(place.branch.article, place.branch.article), tuple(_answers(place)))


def _answers(place: Place) -> Iterator[Line]:
    if place.branch.how != "desk":
        yield Line("The household walked already", f"came by {place.branch.how}")
    for taken in place.standing.taken:
        if taken.step.article == "danger" or taken.by is By.NONE_OF_THESE:
            continue
        reading = f" ({taken.reading:g} bar)" if taken.reading is not None else ""
        known = " (known of the home)" if taken.by is By.FACT else ""
        yield Line(taken.step.title, f"{taken.answer.text}{reading}{known}")
    if place.cannot is not None:
        yield Line(place.cannot.title, "They can't tell")
    for words in place.unasked:
        yield Line("An answer from before", words)
    if place.branch.lost:
        yield Line("Answers from before that are no longer asked", str(place.branch.lost))
    for action in TRIED:
        before, now = place.said_before.get(action), place.tries.get(action, 0)
        if before is not None or now:
            yield Line(f"Tries: {action}", f"{before or 0} before the call, {now} in it")
    yield Line("Came to", place.at.title)


def _people(reading: Reading) -> Iterator[Line]:
    people = reading.call.people
    needs = [NEEDS[kind] for kind in people.get("needs", "").split() if kind in NEEDS]
    asked = "nobody said so" if people.get("asked") == "yes" else NOT_ASKED
    yield Line("Somebody at home", "; ".join(needs) or asked)
    yield Line("They agree that it is noted", SAID_WORDS.get(people.get("consent", ""), NOT_ASKED))
    for name, words in (
        ("indoor", "Degrees indoors"),
        ("outdoor", "Degrees outdoors"),
        ("other-heat", "Something else heats the home"),
        ("other-hot-water", "There is other hot water"),
        ("spreading", "The damage spreads"),
    ):
        said = people.get(name, "")
        yield Line(words, SAID_WORDS.get(said, said) or NOT_ASKED)


def _pace(reading: Reading, causes: Sequence[Chance]) -> Iterator[Line]:
    yield Line("How soon", PACE_WORDS[reading.pace])
    yield Line("The end says", PACE_WORDS[reading.judged.from_end])
    for why in reading.judged.reasons:
        yield Line("Because", why)
    if reading.pace is not reading.judged.pace:
        yield Line("The handler chose otherwise", reading.call.pace_why or "sooner")
    for each in causes[:_TWO]:
        yield Line(f"Likely: {each.chance:.0%}", each.cause.name)


def _visit(reading: Reading, zone: ZoneInfo) -> Iterator[Line]:
    for number, agreed in enumerate(reading.call.turns):
        if isinstance(agreed, NotMade):
            yield Line("Not made", appointment.left(agreed))
            yield Line("Noted by", f"{agreed.by}, {day_and_time(agreed.at, zone)}" if agreed.at else agreed.by)
            continue
        who = agreed.engineer or "whoever is free"
        yield Line("Agreed" if number == 0 else "Moved", f"{appointment.words(agreed.window)}: {who}")
        if agreed.why and agreed.latest:
            yield Line(f"Later than {appointment.moment(agreed.latest, zone)}", agreed.why)
        elif agreed.why:
            yield Line("Because", agreed.why)
        if number:
            yield Line("Moved by", f"{agreed.by}, {day_and_time(agreed.at, zone)}" if agreed.at else agreed.by)
    if not reading.call.turns:
        yield Line("Agreed", "no day")


def _promised(reading: Reading, zone: ZoneInfo) -> Iterator[Line]:
    call = reading.call
    for what, by in call.promises:
        yield Line("Promised", f"{what} (by {by})" if by else what)
    if not call.promises:
        yield Line("Promised", "nothing yet")
    for event in call.of(Did.HANDED):
        yield Line("Handed over", f"{event.by} to {event.get('to')}, {clock(event.at, zone)}")
    for event in call.of(Did.DROPPED):
        yield Line("The line dropped", clock(event.at, zone))
    yield Line("Closed", HOW_CLOSED.get(call.closed, "still open"))
    if call.follow:
        yield Line("Ring back", call.follow)
    yield Line("Recorded by", ", ".join(dict.fromkeys(event.by for event in call.events)))

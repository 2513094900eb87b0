"""How do written fields become a record?

A field's name is the path that `mistakes_in` names it by, so a form, a table and a mistake speak of the same field.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Final, TypeVar

from kb.facts import COUNTS, FACTS, TRIED, GaugeMarks, Known
from kb.home import PLACES
from kb.register.address import Address
from kb.register.alarms import ALARMS, Alarm
from kb.register.appliances import FUELS, KINDS, Appliance
from kb.register.cells import Cells
from kb.register.check import mistakes_in
from kb.register.mistakes import Mistake
from kb.register.people import NEEDS, ROLES, Need, Person
from kb.register.record import Record

_DAYS_OF_APPLIANCES: Final = ("fitted", "warranty_ends", "serviced", "next_service")
_COUNTS: Final = {count: count for count in COUNTS}
_Item = TypeVar("_Item", Person, Appliance, Alarm)
_Value = TypeVar("_Value", str, int)


@dataclass(frozen=True, slots=True)
class Built:
    """A record as it was written, and everything that must be mended before it can be kept."""

    record: Record
    mistakes: tuple[Mistake, ...]


def build(written: Mapping[str, str], before: Record, region: str, today: date) -> Built:
    """What a record becomes when these fields are written over it; fields that are not written stay as they were.

    Items of a list are the same as before where their names are: a person's name, an appliance's plate, an alarm's
    kind and place.
    """
    cells, moved = Cells(written, region), dict[str, str]()
    record = replace(
        before,
        address=address_in(cells, before.address) if cells.has("address") else before.address,
        known=known_in(cells, before.known),
        places=places_in(cells, before.places),
        people=_listed(cells, "people", before.people, _namesake, person_in, moved),
        appliances=_listed(cells, "appliances", before.appliances, _same_plate, appliance_in, moved),
        alarms=_listed(cells, "alarms", before.alarms, _same_alarm, alarm_in, moved),
    )
    return Built(record, every_mistake(cells, record, today, moved))


def every_mistake(
    cells: Cells, record: Record, today: date, moved: Mapping[str, str] | None = None
) -> tuple[Mistake, ...]:
    """What was misread, then what is wrong with the whole; `moved` says where the items of the record were written."""
    there = {mistake.field for mistake in cells.mistakes}
    whole = [replace(each, field=_written_at(each.field, moved or {})) for each in mistakes_in(record, today)]
    return (*cells.mistakes, *(each for each in whole if each.field not in there))


def address_in(cells: Cells, was: Address | None) -> Address | None:
    """The address that is written, None for nothing."""
    part = cells.within("address")
    before = was or Address((), "", "")
    written = tuple(words for n in part.numbers("lines") if (words := part.words(f"lines[{n}]")))
    lines = written if part.has("lines") else before.lines
    town, postcode = part.words("town", before.town), part.postcode("postcode", before.postcode)
    return Address(lines, town, postcode) if lines or town or postcode else None


def known_in(cells: Cells, was: Known) -> Known:
    """The facts, gauge marks and limits that are written."""
    facts, asked = dict(was.facts), cells.within("facts")
    for fact, values in (*FACTS.items(), *((tried, _COUNTS) for tried in TRIED.values())):
        if asked.given(fact):
            _put(facts, fact, asked.choice(fact, values))
    limits, allowed = dict(was.limits), cells.within("limits")
    for action in TRIED:
        if allowed.given(action):
            _put(limits, action, allowed.count(action))
    return Known(facts, _marks_in(cells.within("marks"), was.marks), limits)


def places_in(cells: Cells, was: Mapping[str, str]) -> Mapping[str, str]:
    """Where things are."""
    places, told = dict(was), cells.within("places")
    for place in PLACES:
        if told.given(place):
            _put(places, place, told.words(place) or None)
    return places


def person_in(cells: Cells, was: Person | None) -> Person:
    """A person who is written, with the number they had."""
    before = was or Person("")
    phones = tuple(number for n in cells.numbers("phones") if (number := cells.phone(f"phones[{n}]")))
    needs = tuple(_need_in(item) for _, item in cells.items("needs"))
    return Person(
        cells.words("name", before.name),
        cells.choice("role", ROLES, before.role) or "lives-here",
        phones if cells.has("phones") else before.phones,
        needs if cells.has("needs") else before.needs,
        before.id,
    )


def appliance_in(cells: Cells, was: Appliance | None) -> Appliance:
    """An appliance that is written."""
    before = was or Appliance("")
    return Appliance(
        cells.words("plate", before.plate),
        cells.words("range", before.range),
        cells.choice("fuel", FUELS, before.fuel),
        cells.choice("kind", KINDS, before.kind),
        cells.words("serial", before.serial),
        **{name: cells.day(name, getattr(before, name)) for name in _DAYS_OF_APPLIANCES},
    )


def alarm_in(cells: Cells, was: Alarm | None) -> Alarm:
    """An alarm that is written."""
    before = was or Alarm("", "")
    kind = cells.choice("kind", ALARMS, before.kind) or ""
    if not kind and cells.path("kind") not in {mistake.field for mistake in cells.mistakes}:
        cells.wrong("kind", f"one of {', '.join(ALARMS)}", "nothing", "Choose from these.")
    return Alarm(kind, cells.words("place", before.place), cells.day("ends", before.ends))


def _put(values: dict[str, _Value], name: str, value: _Value | None) -> None:
    if value is None:
        values.pop(name, None)
    else:
        values[name] = value


def _marks_in(cells: Cells, was: GaugeMarks) -> GaugeMarks:
    low, aim, high = (cells.figure(name, getattr(was, name)) for name in ("low", "aim", "high"))
    try:
        return GaugeMarks(low, aim, high)
    except ValueError:
        expected = "low, aim and high to rise and stay between 0.6 and 2.4 bar"
        cells.wrong("low", expected, f"{low}, {aim} and {high}", "Read them again from the gauge or the record.")
        return was


def _need_in(cells: Cells) -> Need:
    kind = cells.choice("kind", NEEDS) or ""
    said = {mistake.field for mistake in cells.mistakes}
    if not kind and cells.path("kind") not in said:
        cells.wrong("kind", f"one of {', '.join(NEEDS)}", "nothing", "Choose the need that was agreed to.")
    consented = cells.day("consented")
    if consented is None and cells.path("consented") not in {mistake.field for mistake in cells.mistakes}:
        cells.wrong("consented", "the day they agreed that it may be noted", "nothing", "Ask them, and give the day.")
    return Need(kind or next(iter(NEEDS)), consented or date.min, cells.day("reviewed"))


def _listed(
    cells: Cells,
    name: str,
    before: Sequence[_Item],
    same: Callable[[Cells, _Item], bool],
    read: Callable[[Cells, _Item | None], _Item],
    moved: dict[str, str],
) -> tuple[_Item, ...]:
    if not cells.has(name):
        return tuple(before)
    left, found = list(before), list[_Item]()
    for _, item in cells.items(name):
        was = next((each for each in left if same(item, each)), None)
        if was is not None:
            left.remove(was)
        moved[f"{name}[{len(found)}]"] = item.at
        for n, (_, need) in enumerate(item.items("needs")):
            moved[f"{name}[{len(found)}].needs[{n}]"] = need.at
        found.append(read(item, was))
    return tuple(found)


def _namesake(cells: Cells, person: Person) -> bool:
    return cells.words("name").casefold() == person.name.strip().casefold()


def _same_plate(cells: Cells, appliance: Appliance) -> bool:
    return cells.words("plate").casefold() == appliance.plate.strip().casefold()


def _same_alarm(cells: Cells, alarm: Alarm) -> bool:
    place = cells.words("place").casefold() == alarm.place.strip().casefold()
    return place and Cells(cells.written, cells.region, [], cells.at).choice("kind", ALARMS) == alarm.kind


def _written_at(path: str, moved: Mapping[str, str]) -> str:
    """Where an item's field was written, its own place first and then that of what it is part of."""
    for item in sorted(moved, key=len, reverse=True):
        if path == item or path.startswith((f"{item}.", f"{item}[")):
            return moved[item] + path[len(item) :]
    return path

"""What of a home need not be asked, because the register knows it?"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Final

from kb.facts import FACTS, NOTHING_KNOWN, Known
from kb.handover.field import Field
from kb.handover.form import Form
from kb.home import Home
from kb.register import Record

STAYS: Final = frozenset(
    {
        "fact:meter",
        "fact:tenure",
        "place:gas-valve",
        "place:stop-tap",
        "place:switch",
        "alarm:co.place",
        "alarm:co.ends",
        "alarm:smoke.place",
        "alarm:smoke.ends",
    }
)
"""What a home keeps when another appliance is fitted; all else belongs to the appliance and is looked at anew."""

_ONCE_PAST: Final = "home:next-service"
"""A day that says nothing any more once it has been."""


@dataclass(frozen=True, slots=True)
class Opening:
    """What a new record begins with: what is filled in, and what the register says beside it that is not."""

    filled: Mapping[str, str]
    beside: Mapping[str, str]


def told_of(form: Form, record: Record) -> Mapping[str, str]:
    """What the register says of a home, by the field of a form that asks for it."""
    return _by_field(form.by_id.values(), _told(record))


def told_by_home(fields: Iterable[Field], home: Home) -> Mapping[str, str]:
    """What is known of a home without its record, by the field that asks for it."""
    return _by_field(fields, _situation(home.known, home.places))


def opening_of(form: Form, record: Record, today: date, another: bool = False) -> Opening:
    """What a record of this home begins with; of a home with another appliance now, only what the home keeps."""
    filled, beside = dict[str, str](), dict[str, str]()
    for id, text in told_of(form, record).items():
        sets = form.by_id[id].sets
        past = sets == _ONCE_PAST and text <= today.isoformat()
        (beside if past or (another and sets not in STAYS) else filled)[id] = text
    return Opening(filled, beside)


def _by_field(fields: Iterable[Field], said: Iterable[tuple[str, str]]) -> Mapping[str, str]:
    told = {sets: text for sets, text in said if text}
    return {field.id: told[field.sets] for field in fields if field.sets in told}


def _told(record: Record) -> Iterator[tuple[str, str]]:
    first = record.appliances[0]
    yield "home:range", first.range
    yield "home:appliance", first.plate
    yield "home:serial", first.serial
    yield "home:fitted", _written(first.fitted)
    yield "home:warranty-ends", _written(first.warranty_ends)
    yield "home:next-service", _written(first.next_service)
    if first.fuel in FACTS["fuel"]:
        yield "fact:fuel", str(first.fuel)
    yield from _situation(record.known, record.places)
    for alarm in reversed(record.alarms):
        yield f"alarm:{alarm.kind}.place", alarm.place
        yield f"alarm:{alarm.kind}.ends", _written(alarm.ends)


def _situation(known: Known, places: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    yield from ((f"fact:{fact}", value) for fact, value in known.facts.items())
    yield from ((f"place:{place}", words) for place, words in places.items())
    if known.marks != NOTHING_KNOWN.marks:
        yield from ((f"mark:{name}", f"{known.marks.bar(name):g}") for name in ("low", "aim", "high"))


def _written(day: date | None) -> str:
    return day.isoformat() if day else ""

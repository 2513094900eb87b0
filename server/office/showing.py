"""How is a home's record told on its page?"""

from collections.abc import Iterator, Sequence
from datetime import date

from kb.days import full_day
from kb.facts import FACTS, LIMIT_NAMES
from kb.numbers import shown, tel
from kb.register import ALARMS, FUELS, KINDS, NEEDS, ROLES, Alarm, Appliance, Need, Person, Record, review_due
from server.office.forms import FACT_WORDS, PLACE_WORDS
from server.office.pages import HomePage, Line, Link, Needed, Part, Somebody
from server.office.room import Room, home_address, title_of
from server.preview import SIZES
from server.staff import Visit
from server.store.register import Printed
from server.web.frame import PhoneLink


def home_page(room: Room, visit: Visit, record: Record, printed: Sequence[Printed], done: str) -> HomePage:
    """The page of a home."""
    here = home_address(record.key)
    region = room.site.firm.region
    return HomePage(
        frame=room.frame(visit),
        done=done,
        title=title_of(record),
        place=f"{record.address.town} {record.address.postcode}" if record.address else "No address yet",
        key=record.key,
        people=tuple(_somebody(person, here, region, room.today) for person in record.people),
        new_person=f"{here}/people/new",
        parts=tuple(_parts(record, here, room)),
        cards=tuple(f"{SIZES.get(each.size, each.size)}, {full_day(each.when.date())}" for each in printed),
        links=(
            Link("See and print its card", f"{here}/card"),
            Link("The card is lost: a new key", f"{here}/lost"),
            Link("Who looked and who changed", f"{here}/trail"),
            Link("What the household sees", f"/h/{record.key}"),
        ),
    )


def back_to(record: Record) -> Link:
    """The way back to a home's page."""
    return Link(f"Back to {title_of(record)}", home_address(record.key))


def _somebody(person: Person, here: str, region: str, today: date) -> Somebody:
    at = f"{here}/people/{person.id}"
    return Somebody(
        person.name,
        ROLES[person.role],
        tuple(PhoneLink(shown(number, region), tel(number, region)) for number in person.phones),
        tuple(_needed(need, today) for need in person.needs),
        at,
        f"{at}/held",
        f"{at}/forget",
    )


def _needed(need: Need, today: date) -> Needed:
    due = review_due(need)
    asked = f", asked again {full_day(need.reviewed)}" if need.reviewed else ""
    days = f"Agreed {full_day(need.consented)}{asked}. Ask again by {full_day(due)}."
    words = NEEDS[need.kind]
    return Needed(words[0].upper() + words[1:], days, due <= today)


def _parts(record: Record, here: str, room: Room) -> Iterator[Part]:
    yield Part("address", "Address", tuple(_address(record)), f"{here}/address")
    lines = tuple(line for each in enumerate(record.appliances, 1) for line in _appliance(*each, room))
    yield Part("appliances", "Appliances", lines, f"{here}/appliances")
    facts = (Line(FACT_WORDS.get(f, f), FACTS.get(f, {}).get(v, v)) for f, v in record.known.facts.items())
    yield Part("facts", "What is known", tuple(facts), f"{here}/facts")
    yield Part("marks", "Gauge marks and limits", tuple(_marks(record)), f"{here}/marks")
    places = (Line(PLACE_WORDS[place], words) for place, words in record.places.items())
    yield Part("places", "Where things are", tuple(places), f"{here}/places")
    yield Part("alarms", "Alarms", tuple(_alarm(each) for each in record.alarms), f"{here}/alarms")


def _address(record: Record) -> Iterator[Line]:
    if record.address:
        yield Line("House and street", ", ".join(record.address.lines))
        yield Line("Town", record.address.town)
        yield Line("Postcode", record.address.postcode)


def _appliance(number: int, appliance: Appliance, room: Room) -> Iterator[Line]:
    family = room.site.ranges.get(appliance.range)
    kind = KINDS.get(appliance.kind or "", "")
    yield Line(f"Appliance {number}", ", ".join(words for words in (appliance.plate, kind) if words))
    told = (
        ("Range", family.name if family else appliance.range),
        ("Runs on", FUELS.get(appliance.fuel or "", "")),
        ("Serial number", appliance.serial),
        ("Fitted", full_day(appliance.fitted)),
        ("Warranty ends", full_day(appliance.warranty_ends)),
        ("Last service", full_day(appliance.serviced)),
        ("Next service", full_day(appliance.next_service)),
    )
    yield from (Line(name, words) for name, words in told if words)


def _marks(record: Record) -> Iterator[Line]:
    marks = record.known.marks
    yield Line("Gauge, cold", f"low {marks.low}, aim {marks.aim}, high {marks.high} bar")
    yield from (Line(f"{LIMIT_NAMES.get(act, act)}, at most", str(n)) for act, n in record.known.limits.items())


def _alarm(alarm: Alarm) -> Line:
    words = ALARMS[alarm.kind]
    return Line(
        f"{words[0].upper()}{words[1:]}, {alarm.place}",
        f"Replace by {full_day(alarm.ends)}" if alarm.ends else "End date not known",
    )

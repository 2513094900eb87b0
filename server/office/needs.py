"""Whose needs must be asked about again, and what did they say?

A need is noted with somebody's consent, and is asked about again before it is a year old.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta
from typing import Final

from starlette.responses import RedirectResponse, Response

from kb.days import full_day
from kb.keys import tidy
from kb.numbers import shown, tel
from kb.register import NEEDS, Built, Need, Person, Record
from server.office.firm_pages import NeedRow, NeedsPage
from server.office.room import ROOM, Room, Ways, home_address, title_of
from server.staff import Visit
from server.store.register import Review
from server.web.errors import NotFound
from server.web.frame import PhoneLink
from server.web.pages import answer

HERE: Final = f"{ROOM}/needs"
AHEAD: Final = timedelta(days=31)
AT_ONCE: Final = 50
"""How many stand on the page; whoever is done with these finds the next."""

STILL, GONE = "still", "gone"


def add(ways: Ways, room: Room) -> None:
    """The list, and what was said."""
    needs = _Needs(room)
    ways.shows(HERE, needs.show)
    ways.does(HERE, needs.keep)


@dataclass(frozen=True, slots=True)
class _Needs:
    room: Room

    def show(self, visit: Visit) -> Response:
        register, by = self.room.site.store.register, visit.who.name
        reviews = register.reviews(self.room.today + AHEAD, by, AT_ONCE)
        records = {key: register.read(key, by) for key in dict.fromkeys(each.key for each in reviews)}
        rows = tuple(_rows(self.room, reviews, records))
        return answer(NeedsPage(self.room.frame(visit), rows, len(reviews) == AT_ONCE))

    def keep(self, visit: Visit) -> Response:
        """Note what they said today of one need; what somebody else noted meanwhile stays as it is."""
        key, kind, said = visit.form.get("key", ""), visit.form.get("kind", ""), visit.form.get("do", "")
        if tidy(key) != key or said not in (STILL, GONE):
            raise NotFound

        def alter(record: Record) -> Built:
            people = tuple(
                _after(person, kind, said, self.room) if str(person.id) == visit.form.get("person") else person
                for person in record.people
            )
            return Built(replace(record, people=people), ())

        if self.room.site.store.register.change(key, alter, visit.who.name) is None:
            raise NotFound
        return RedirectResponse(HERE, 303)


def _rows(room: Room, reviews: Sequence[Review], records: dict[str, Record | None]) -> Iterator[NeedRow]:
    region = room.site.firm.region
    for review in reviews:
        record = records[review.key]
        person = next((each for each in record.people if each.id == review.person), None) if record else None
        if record is None or person is None:
            continue
        yield NeedRow(
            person.name,
            tuple(PhoneLink(shown(number, region), tel(number, region)) for number in person.phones),
            NEEDS[review.kind][0].upper() + NEEDS[review.kind][1:],
            full_day(review.due),
            review.due <= room.today,
            title_of(record),
            f"{home_address(record.key)}#people",
            record.key,
            str(person.id),
            review.kind,
        )


def _after(person: Person, kind: str, said: str, room: Room) -> Person:
    kept = (_asked(need, room) if need.kind == kind else need for need in person.needs)
    return replace(person, needs=tuple(need for need in kept if said == STILL or need.kind != kind))


def _asked(need: Need, room: Room) -> Need:
    return replace(need, reviewed=room.today)

"""What does the firm's own file say, what is missing in it, and what follows from that?"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Final

from starlette.responses import Response

from kb.days import full_day
from kb.firm import Firm
from kb.hours import WEEKDAYS
from kb.numbers import shown
from kb.region import Region
from server.office.firm_pages import FirmPage
from server.office.pages import Line
from server.office.room import ROOM, Room, Ways
from server.staff import Visit
from server.web.pages import answer

HERE: Final = f"{ROOM}/firm"
OLD: Final = 365
"""After so many days a confirmed number should be confirmed again; common practice."""

_DAYS: Final = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_PHONES: Final = {"office": "Office", "out-of-hours": "Out of hours", "mobile": "Mobile"}
_KINDS: Final = {"gas": "The gas emergency number", "emergency": "The emergency services’ number"}
_PACES: Final = {"leave": "Leave", "make-safe": "Make safe", "today": "Today", "three-days": "Within three days",
                 "routine": "At the next visit", "advice": "Advice"}  # fmt: skip
_FUELS: Final = {"natural-gas": "mains gas", "lpg": "LPG", "oil": "oil", "unvented": "unvented hot water"}


def add(ways: Ways, room: Room) -> None:
    """The page of the firm."""
    ways.shows(HERE, _Ourselves(room).show)


@dataclass(frozen=True, slots=True)
class _Ourselves:
    room: Room

    def show(self, visit: Visit) -> Response:
        site = self.room.site
        return answer(
            FirmPage(
                self.room.frame(visit),
                tuple(missing(site.firm, site.region, self.room.today)),
                (
                    ("The firm", tuple(_firm(site.firm, site.region))),
                    ("Phones", tuple(_phones(site.firm))),
                    ("Opening hours", tuple(_hours(site.firm))),
                    ("When we promise to call back", tuple(_promised(site.firm))),
                    ("Emergency numbers on every page and card", tuple(_emergency(site.firm, site.region))),
                    ("Ranges", tuple(Line(each.name, id) for id, each in site.ranges.items())),
                ),
            )
        )


def missing(firm: Firm, region: Region, today: date) -> Iterator[str]:
    """What somebody should see to, and what it stops."""
    for kind, words in _KINDS.items():
        confirmed = firm.confirmed(kind)
        if confirmed is None:
            yield f"{words} is not confirmed for this place: no card can be printed until it is."
        elif (today - confirmed.confirmed).days > OLD:
            yield f"{words} was confirmed on {full_day(confirmed.confirmed)}: confirm it again."
        elif confirmed.number.replace(" ", "") != region.numbers[kind].number.replace(" ", ""):
            yield (
                f"{words} is {confirmed.number} here, and {region.numbers[kind].number} in the profile of "
                f"{region.name}: make sure that it is meant."
            )
    if not any(firm.hours.values()):
        yield "No opening hours are given: nobody is told when we can be reached."
    if not any(phone.what == "out-of-hours" for phone in firm.phones):
        yield "There is no number for out of hours: at night people are given the office’s."
    if not any(phone.sms for phone in firm.phones):
        yield "No number takes texts: nobody is offered to text us."
    if not firm.answers_within:
        yield "Nothing says how soon we call back: whoever asks to be called is promised no time."
    if firm.site.startswith("http://"):
        yield f"Cards lead to {firm.site}, which opens on this machine alone: print none before it is your own address."


def _firm(firm: Firm, region: Region) -> Iterator[Line]:
    yield Line("Name", firm.name)
    yield Line("Town", firm.town)
    yield Line("Registration", firm.registration)
    yield Line("Looks after", ", ".join(_FUELS[fuel] for fuel in firm.serves))
    yield Line("Region", f"{region.name}, its profile reviewed {full_day(region.reviewed)}")
    yield Line("Address that cards lead to", firm.site)
    yield Line("Clock", firm.zone)
    yield Line("Colour and logo of its cards", ", ".join(filter(None, (firm.colour, firm.logo))) or "none")


def _phones(firm: Firm) -> Iterator[Line]:
    for phone in firm.phones:
        texts = ", takes texts" if phone.sms else ""
        yield Line(f"{_PHONES[phone.what]}{texts}", shown(phone.number, firm.region))


def _hours(firm: Firm) -> Iterator[Line]:
    for name, words in zip(WEEKDAYS, _DAYS, strict=True):
        openings = firm.hours.get(name, ())
        yield Line(words, ", ".join(str(each).replace("-", " to ") for each in openings) or "closed")


def _promised(firm: Firm) -> Iterator[Line]:
    for pace, minutes in firm.answers_within.items():
        hours, left = divmod(minutes, 60)
        parts = (f"{hours} h" if hours else "", f"{left} min" if left else "")
        yield Line(_PACES[pace], f"{' '.join(filter(None, parts))} of our opening hours")


def _emergency(firm: Firm, region: Region) -> Iterator[Line]:
    for kind, words in _KINDS.items():
        confirmed = firm.confirmed(kind)
        if confirmed:
            yield Line(words, f"{confirmed.number}, confirmed {full_day(confirmed.confirmed)} by {confirmed.by}")
        else:
            yield Line(words, f"{region.numbers[kind].number}, as the region’s profile has it; not confirmed")

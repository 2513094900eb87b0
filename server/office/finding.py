"""The office's first page, and homes found by whatever somebody has of them."""

from dataclasses import dataclass
from typing import Final

from starlette.responses import RedirectResponse, Response

from kb import keys
from kb.register import understand
from server.office.pages import FoundHome, Link, OfficePage
from server.office.room import ROOM, Room, Ways, home_address
from server.settings import NOBODY_TOLD
from server.staff import Visit
from server.store.register import Hit
from server.web.pages import answer

MOST: Final = 20
LONGEST: Final = 100
NOTHING: Final = (
    "No home was found. Try fewer letters, the last figures of the phone, the postcode alone, or part of the street."
)

_WAYS: Final = (
    (
        "To do",
        (
            Link("Visits to be made", f"{ROOM}/visits", "By whom, when, which are overdue; move one"),
            Link("What is due", f"{ROOM}/due", "Services, alarms, warranties and needs, month by month"),
            Link("Needs to ask about again", f"{ROOM}/needs", "Whom to ring, and what they say"),
            Link("Cards that changed", f"{ROOM}/cards", "Printed cards that no longer say what is known"),
        ),
    ),
    (
        "Homes",
        (
            Link("A new home", f"{ROOM}/new", "It gets its key when you save it"),
            Link("All homes", f"{ROOM}/homes", "By range, service, alarm, place or card; as a table or as cards"),
            Link("Many homes at once", f"{ROOM}/list", "Import and export as CSV"),
        ),
    ),
    (
        "The firm",
        (
            Link("How it goes", f"{ROOM}/figures", "Calls, visits and what they show, in pictures"),
            Link("Our firm", f"{ROOM}/firm", "Phones, hours and emergency numbers, and what is missing"),
            Link("How our cards look", f"{ROOM}/look", "Our colour and our logo, on an example home"),
            Link("Who may sign in", f"{ROOM}/accounts", "Accounts of our own people, and new passwords"),
            Link("Who looked at what", f"{ROOM}/looked", "Each look and each change of our own people"),
            Link("My calendar", "/staff/calendar", "Services and alarms in your own calendar"),
        ),
    ),
)


def add(ways: Ways, room: Room) -> None:
    """The first page and the search."""
    finding = _Finding(room)
    ways.shows(ROOM, finding.first)
    ways.does(f"{ROOM}/find", finding.find)
    ways.shows(f"{ROOM}/found/{{keys}}", finding.found)


@dataclass(frozen=True, slots=True)
class _Finding:
    room: Room

    def first(self, visit: Visit) -> Response:
        return answer(self._page(visit))

    def find(self, visit: Visit) -> Response:
        """Look, and go on to what was found: what was typed stays out of every address, which histories keep."""
        typed = visit.form.get("find", "").strip()[:LONGEST]
        asked = understand(typed, self.room.site.firm.region)
        hits = self.room.site.store.register.find(asked, visit.who.name, MOST) if typed else ()
        if not hits:
            return answer(self._page(visit, NOTHING if typed else "", typed), 404 if typed else 200)
        if len(hits) == 1:
            return RedirectResponse(home_address(hits[0].key), 303)
        return RedirectResponse(f"{ROOM}/found/{'.'.join(hit.key for hit in hits)}", 303)

    def found(self, visit: Visit) -> Response:
        sought = [key for key in visit.request.path_params["keys"].split(".")[:MOST] if keys.tidy(key) == key]
        hits = self.room.site.store.lists.hits(sought, visit.who.name)
        return answer(self._page(visit, "" if hits else NOTHING, hits=hits), 200 if hits else 404)

    def _page(self, visit: Visit, alert: str = "", typed: str = "", hits: tuple[Hit, ...] = ()) -> OfficePage:
        found = tuple(
            FoundHome(", ".join(hit.lines) or hit.key, home_address(hit.key), ", ".join(hit.names), _place(hit))
            for hit in hits
        )
        unheard = NOBODY_TOLD if self.room.site.unheard else ""
        return OfficePage(self.room.frame(visit), alert, typed, found, len(found) == MOST, _WAYS, unheard)


def _place(hit: Hit) -> str:
    return " ".join(part for part in (hit.town, hit.postcode) if part)

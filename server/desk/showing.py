"""Addresses to pages: what the desk sees of a call."""

from collections.abc import Callable

from fastapi import APIRouter
from starlette.responses import RedirectResponse, Response

from kb.article import End, Pace
from kb.staff import Role
from server.desk.book import ROOM, Book, Opened
from server.desk.ending import Ender
from server.desk.gathering import Gatherer
from server.desk.leading import Leader
from server.desk.listing import calls_page
from server.finding import keys_of
from server.site import Site
from server.staff import Door, Visit
from server.web.pages import WITH_SCRIPT, Page, answer

Sub = Callable[[Opened, Visit], Page | None]


def routes(site: Site) -> APIRouter:
    """Every page of the desk."""
    router = APIRouter(include_in_schema=False)
    door, shown = Door(site), Shown(site)

    def add(path: str, view: Callable[[Visit], Response]) -> None:
        router.add_api_route(path, door.reading(Role.DESK, view), methods=["GET"], response_model=None)

    add(ROOM, shown.calls)
    add(ROOM + "/{call}", shown.now)
    add(ROOM + "/{call}/who", shown.who)
    add(ROOM + "/{call}/who/{keys}", shown.found)
    add(ROOM + "/{call}/what", shown.what)
    add(ROOM + "/{call}/pace", shown.pace)
    add(ROOM + "/{call}/book", shown.when)
    add(ROOM + "/{call}/finish", shown.finish)
    add(ROOM + "/{call}/note", shown.note)
    add(ROOM + "/{call}/brief", shown.brief)
    return router


class Shown:
    """The pages of a call, for one site."""

    def __init__(self, site: Site) -> None:
        """Show the calls of a site."""
        self.book = Book(site)
        self.leader = Leader(self.book)
        self.gatherer = Gatherer(self.book)
        self.ender = Ender(self.book)

    def calls(self, visit: Visit) -> Response:
        """The list of calls."""
        return send(calls_page(self.book, visit))

    def now(self, visit: Visit) -> Response:
        """Whatever the call needs next: danger, then who, then what, then the script."""
        opened = self.book.find(visit.request)
        return self.at(opened, visit)

    def at(self, opened: Opened, visit: Visit, alert: str = "", typed: str = "") -> Response:
        """The page a call stands at."""
        reading = opened.reading
        status = 422 if alert else 200
        if reading.agenda.next is not None:
            return send(self.leader.danger(opened, reading.agenda.next, visit, alert), status)
        if isinstance(reading.agenda.end, End):
            return send(self.leader.emergency(opened, reading.agenda.end, visit, alert), status)
        if reading.place is not None and isinstance(reading.place.at, End) and reading.place.at.pace is Pace.LEAVE:
            back = max(0, reading.place.onward - 1)
            return send(self.leader.emergency(opened, reading.place.at, visit, alert, back), status)
        if reading.place is not None:
            return send(self.leader.script(opened, reading.place, visit, alert, typed), status)
        if reading.call.key is None and not reading.call.caller:
            return RedirectResponse(f"{opened.address}/who", 303)
        return RedirectResponse(f"{opened.address}/what", 303)

    def who(self, visit: Visit) -> Response:
        """Who rings, and which home it is."""
        return self._behind_danger(visit, self.gatherer.who)

    def found(self, visit: Visit) -> Response:
        """The same with the homes that were found; an old key that was read out is told."""
        old = visit.request.query_params.get("old", "")
        return self._behind_danger(
            visit, lambda opened, visit: self.gatherer.found(opened, visit, keys_of(visit.request), old)
        )

    def what(self, visit: Visit) -> Response:
        """What is wrong."""
        opened = self.book.find(visit.request)
        if not opened.reading.agenda.clear:
            return RedirectResponse(opened.address, 303)
        return send(self.gatherer.what(opened, visit, "", ""))

    def pace(self, visit: Visit) -> Response:
        """How soon, and why."""
        return self._behind_danger(visit, lambda opened, visit: self.ender.pace(opened, visit, ""))

    def when(self, visit: Visit) -> Response:
        """When somebody comes, and who."""
        return self._behind_danger(visit, lambda opened, visit: self.ender.when(opened, visit, ""))

    def finish(self, visit: Visit) -> Response:
        """What is promised, and how it ends."""
        opened = self.book.find(visit.request)
        return send(self.ender.finish(opened, visit, ""))

    def note(self, visit: Visit) -> Response:
        """The note of the call."""
        opened = self.book.find(visit.request)
        return send(self.ender.note(opened, visit))

    def brief(self, visit: Visit) -> Response:
        """The engineer's brief."""
        opened = self.book.find(visit.request)
        made = self.ender.brief(opened, visit)
        return send(made) if made else RedirectResponse(opened.address, 303)

    def _behind_danger(self, visit: Visit, sub: Sub) -> Response:
        """A page that waits until the danger questions that wait are answered."""
        opened = self.book.find(visit.request)
        made = sub(opened, visit) if opened.reading.agenda.next is None else None
        return send(made) if made else RedirectResponse(opened.address, 303)


def send(page: Page, status: int = 200) -> Response:
    """A page of the desk, with its script."""
    return answer(page, status, policy=WITH_SCRIPT)

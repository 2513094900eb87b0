"""The secret address under which a calendar program finds what is due, and an engineer their own visits.

Every account may have one, whatever its role; only what it hashes to is kept, so it is shown once.
"""

from dataclasses import dataclass
from datetime import timedelta
from hashlib import sha256
from secrets import token_urlsafe
from typing import Final

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from kb.days import full_moment
from kb.staff import Role
from server.diary.coming import coming
from server.office.list_pages import CalendarPage
from server.office.room import Room, Ways, home_address
from server.staff import Visit
from server.web.errors import NotFound
from server.web.pages import PRIVATE, SECURITY, answer

PAGE: Final = "/staff/calendar"
BEFORE: Final = timedelta(days=31)
AFTER: Final = timedelta(days=400)
LONGEST: Final = 100


def add(ways: Ways, room: Room) -> None:
    """The page of somebody's calendar, and the calendar."""
    calendars = _Calendars(room)
    ways.shows(PAGE, calendars.show, role=None)
    ways.does(PAGE, calendars.renew, role=None)
    ways.does(f"{PAGE}/stop", calendars.stop, role=None)
    ways.shows("/staff/homes/{number}", calendars.home, role=None)
    ways.router.add_api_route("/calendar/{secret}.ics", calendars.feed, methods=["GET", "HEAD"], response_model=None)


@dataclass(frozen=True, slots=True)
class _Calendars:
    room: Room

    def show(self, visit: Visit) -> Response:
        return answer(self._page(visit))

    def renew(self, visit: Visit) -> Response:
        secret = token_urlsafe(32)
        self.room.site.store.calendars.renew(visit.who.name, _kept(secret), self.room.site.now())
        return answer(self._page(visit, f"{self.room.site.firm.site}/calendar/{secret}.ics"))

    def stop(self, visit: Visit) -> Response:
        self.room.site.store.calendars.stop(visit.who.name)
        return RedirectResponse(PAGE, 303)

    def home(self, visit: Visit) -> Response:
        """Where an event of the calendar leads: to the home, for those who may see it."""
        written = visit.request.path_params["number"]
        number = int(written) if written.isascii() and written.isdigit() and len(written) < 10 else 0
        key = self.room.site.store.lists.key_of(number)
        if key is None:
            raise NotFound
        return RedirectResponse(home_address(key) if visit.who.may(Role.OFFICE) else f"/h/{key}", 303)

    async def feed(self, request: Request) -> Response:
        secret = request.path_params["secret"]
        body = await run_in_threadpool(self._written, secret) if len(secret) <= LONGEST else None
        if body is None:
            raise NotFound
        headers = {**SECURITY, "cache-control": PRIVATE, "x-robots-tag": "noindex"}
        return Response(body, headers=headers, media_type="text/calendar; charset=utf-8")

    def _written(self, secret: str) -> bytes | None:
        from kb.calendar import calendar

        site = self.room.site
        account = site.store.calendars.whose(_kept(secret))
        if account is None:
            return None
        visits = coming(site, account.name) if account.may(Role.ENGINEER) else ()
        found = site.store.lists.dates(self.room.today - BEFORE, self.room.today + AFTER)
        return calendar(found, site.firm, site.now(), lambda home: f"{site.firm.site}/staff/homes/{home}", visits)

    def _page(self, visit: Visit, address: str = "") -> CalendarPage:
        made = self.room.site.store.calendars.made(visit.who.name)
        words = full_moment(made, self.room.site.firm.clock) if made else ""
        return CalendarPage(self.room.frame(visit), words, address)


def _kept(secret: str) -> str:
    return sha256(secret.encode()).hexdigest()

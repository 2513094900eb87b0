"""My visits, and the brief of each; the worker that keeps them at hand without a signal."""

from collections.abc import Iterator
from secrets import token_urlsafe
from typing import Final

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from kb import keys
from kb.article import Article
from kb.handover.record import Entry
from kb.home import Home
from kb.staff import Role
from kb.visit.job import Job
from server.engineer.book import ROOM
from server.engineer.history import OUTCOMES
from server.engineer.jobs import VISITS, JobBook, Seen
from server.engineer.pages import Link
from server.engineer.reading import PACE_WORDS
from server.engineer.starting import found_homes
from server.engineer.visit_pages import Booked, BriefPage, VisitsPage
from server.site import Site
from server.staff import Door, Visit
from server.staff.pages import staff_frame
from server.web.pages import WITH_SCRIPT, answer
from server.web.static import asset, scripts

NO_FAULT: Final = "Choose what the visit is about."
NO_HOME: Final = "No home has this key. Find it again."
NOTHING: Final = "No home was found for that."
ALERTS: Final = {"fault": NO_FAULT, "home": NO_HOME}


def routes(site: Site) -> APIRouter:
    """The list, a brief, the worker."""
    router = APIRouter()
    door, room = Door(site), _Visits(site)
    for path, method, endpoint in (
        (VISITS, "GET", door.reading(Role.ENGINEER, room.list)),
        (VISITS, "POST", door.changing(Role.ENGINEER, room.take)),
        (VISITS + "/{job}", "GET", door.reading(Role.ENGINEER, room.show)),
        (f"{ROOM}/worker.js", "GET", _worker),
    ):
        router.add_api_route(path, endpoint, methods=[method], response_model=None)
    return router


async def _worker(request: Request) -> Response:
    """The worker under an address in the room, since a worker keeps only what lies beside it."""
    return Response(asset("worker.js").body, 200, {**WITH_SCRIPT, "cache-control": "no-cache"}, "text/javascript")


class _Visits:
    def __init__(self, site: Site) -> None:
        self.site = site
        self.book = JobBook(site)

    def list(self, visit: Visit) -> Response:
        """My visits, those that wait, and the homes that were sought."""
        query = visit.request.query_params
        sought = query.get("find", "").strip()[:60]
        found = found_homes(self.site, sought, visit.who.name) if sought else ()
        page = VisitsPage(
            frame=staff_frame(self.site, visit),
            scripts=scripts("entries.js", "offline.js"),
            alert=ALERTS.get(query.get("lacking", ""), NOTHING if sought and not found else ""),
            mine=tuple(self._mine(self.book.read(job)) for job in self.site.store.jobs.open_by(visit.who.name)),
            booked=tuple(self._booked()),
            sought=sought,
            found=found,
            faults=tuple(Link(each.title, each.id) for each in self.site.library.faults()),
        )
        return answer(page, policy=WITH_SCRIPT)

    def _mine(self, seen: Seen) -> Link:
        return Link(seen.title, seen.address, f"{PACE_WORDS[seen.told.pace]}. {self._where(seen.home)}")

    def _where(self, home: Home | None) -> str:
        return f"{home.appliance}, {home.key}" if home else "Home not known"

    def _booked(self) -> Iterator[Booked]:
        for id in self.site.store.jobs.untaken():
            reading = self.book.reading(id)
            fault = self.book.fault_of(id)
            if reading is not None:
                words = fault.title if fault else "No fault was found out"
                kept = self.site.store.calls.call(id)
                home = self.book.home(kept.home if kept else "")
                where = self._where(home) if home else reading.call.caller.get("address", "Home not known")
                yield Booked(id, words, where, PACE_WORDS[reading.pace], fault.id if fault else "")

    def take(self, visit: Visit) -> Response:
        """Take a booked visit, or begin one without a call."""
        call, typed = visit.form.get("call", ""), visit.form.get("key", "")
        kept = self.site.store.calls.call(call) if call else None
        fault = self._fault(visit.form.get("fault", "")) or (self.book.fault_of(call) if kept else None)
        key = kept.home if kept else keys.tidy(typed) or ""
        home = self.book.home(key)
        if fault is None:
            return RedirectResponse(f"{VISITS}?lacking=fault", 303)
        if kept is None and home is None:
            return RedirectResponse(f"{VISITS}?lacking=home", 303)
        job = self.site.store.jobs.begin(self._job(fault, home, kept.id if kept else "", visit.who.name))
        return RedirectResponse(f"{VISITS}/{job.id}", 303)

    def _fault(self, id: str) -> Article | None:
        return next((each for each in self.site.library.faults() if each.id == id), None)

    def _job(self, fault: Article, home: Home | None, call: str, by: str) -> Job:
        now = self.site.now()
        fuel = home.known.facts.get("fuel", "") if home else ""
        entries = (Entry("known-unsafe-fuel", 1, "unsafe-fuel", fuel, by, now),) if fuel else ()
        key, family = (home.key, home.range) if home else ("", "")
        return Job(token_urlsafe(12), fault.id, now, by, key, call, family, entries)

    def show(self, visit: Visit) -> Response:
        """The brief."""
        seen = self.book.find(visit.request)
        page = BriefPage(
            frame=staff_frame(self.site, visit),
            scripts=scripts("entries.js", "offline.js"),
            address=seen.address,
            title=seen.title,
            pace=PACE_WORDS[seen.told.pace],
            brief=self.book.brief(seen, visit.who.name),
            closed=tuple(self._closed(seen)),
            base=ROOM,
        )
        return answer(page, policy=WITH_SCRIPT)

    def _closed(self, seen: Seen) -> Iterator[tuple[str, str]]:
        closed = seen.job.closed
        if closed is None:
            return
        at = closed.at.astimezone(self.site.firm.clock)
        yield "Closed", f"{at:%-d %B %Y, %H:%M}, {closed.by}"
        yield "It was", f"{closed.cause}: {closed.words}" if closed.words else closed.cause
        yield "Left", OUTCOMES.get(closed.outcome, closed.outcome)
        yield "Parts used", ", ".join(closed.used) or "none"
        yield "Parts taken", ", ".join(closed.taken) or "none noted"
        if closed.minutes is not None:
            yield "Minutes", str(closed.minutes)
        if closed.unsafe:
            yield "Unsafe", seen.written.form.by_id["unsafe-class"].options.get(closed.unsafe, closed.unsafe)
        if closed.report_by:
            yield "Report under RIDDOR 11(2) by", f"{closed.report_by:%-d %B %Y}"

"""My visits, and the brief of each; the worker that keeps them at hand without a signal."""

from collections.abc import Iterator
from secrets import token_urlsafe
from typing import Final

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from kb import keys
from kb.article import Article
from kb.desk.call import read_call
from kb.desk.words import PACE_WORDS
from kb.handover.record import Entry
from kb.home import Home
from kb.staff import Role
from kb.visit.history import OUTCOMES
from kb.visit.job import Job
from server.diary.leaving import missed
from server.diary.planned import ANYBODY, Planned, planned
from server.engineer.book import ROOM
from server.engineer.jobs import VISITS, JobBook, Seen
from server.engineer.leaving import Leaver
from server.engineer.pages import FoundHome, Link
from server.engineer.starting import NOTHING, homes_of, sought
from server.engineer.visit_pages import BriefPage, ToDo, VisitsPage
from server.finding import keys_of
from server.site import Site
from server.staff import Door, Visit
from server.staff.pages import staff_frame
from server.web.pages import WITH_SCRIPT, answer
from server.web.static import asset, scripts

NO_FAULT: Final = "Choose what the visit is about."
NO_HOME: Final = "No home has this key. Find it again."
CALLED_OFF: Final = "This visit was called off. The call's note says why."
ALERTS: Final = {"fault": NO_FAULT, "home": NO_HOME, "off": CALLED_OFF}


def routes(site: Site) -> APIRouter:
    """The list, a brief, the worker."""
    router = APIRouter()
    door, room = Door(site), _Visits(site)
    for path, method, endpoint in (
        (VISITS, "GET", door.reading(Role.ENGINEER, room.list)),
        (VISITS, "POST", door.changing(Role.ENGINEER, room.take)),
        (f"{VISITS}/find", "POST", door.changing(Role.ENGINEER, room.find)),
        (f"{VISITS}/found/{{keys}}", "GET", door.reading(Role.ENGINEER, room.found)),
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
        self.leaver = Leaver(site)

    def list(self, visit: Visit) -> Response:
        """My visits, and those that wait; a phone keeps this page, so it finds nobody."""
        alert = ALERTS.get(visit.request.query_params.get("lacking", ""), "")
        return answer(self._page(visit, alert, kept=True), policy=WITH_SCRIPT)

    def find(self, visit: Visit) -> Response:
        """Look for the home of a visit without a call, and go on to what was found."""
        return sought(self.site, visit, f"{VISITS}/found", lambda alert, typed: self._page(visit, alert, typed))

    def found(self, visit: Visit) -> Response:
        """The same list with the homes that were found."""
        found = homes_of(self.site, keys_of(visit.request), visit.who.name)
        page = self._page(visit, "" if found else NOTHING, found=found)
        return answer(page, 200 if found else 404, policy=WITH_SCRIPT)

    def _page(
        self, visit: Visit, alert: str, typed: str = "", found: tuple[FoundHome, ...] = (), kept: bool = False
    ) -> VisitsPage:
        return VisitsPage(
            frame=staff_frame(self.site, visit),
            scripts=scripts("entries.js", "offline.js") if kept else scripts("entries.js"),
            alert=alert,
            groups=self._groups(visit.who.name),
            sought=typed,
            found=found,
            faults=tuple(Link(each.title, each.id) for each in self.site.library.faults()),
        )

    def _groups(self, me: str) -> tuple[tuple[str, tuple[ToDo, ...]], ...]:
        """Mine of today first, then what anybody may take; each in the order of the pace, then of the window."""
        found = planned(self.site, me)
        mine = [each for each in found if each.visit.owner == me]
        today = [each for each in mine if self._is_today(each)]
        later = [each for each in mine if each not in today]
        free = [each for each in found if not each.visit.owner]
        others = [each for each in found if each.visit.owner not in ("", me)]
        named = (
            ("Mine today", today),
            ("Mine on other days", later),
            ("For whoever is free", free),
            ("Others'", others),
        )
        return tuple((title, tuple(self._to_do(each, me) for each in visits)) for title, visits in named if visits)

    def _is_today(self, each: Planned) -> bool:
        agreed = each.visit.agreed
        return agreed is None or bool(each.overdue) or agreed.window.day <= self.book.today()

    def _to_do(self, each: Planned, me: str) -> ToDo:
        visit = each.visit
        mine = visit.owner == me
        return ToDo(
            address=f"{VISITS}/{visit.job}" if visit.job and mine else "",
            verb="Take" if mine or not visit.owner else "Take over",
            call=visit.call,
            job=visit.job,
            words=each.title,
            pace=PACE_WORDS[each.pace],
            when=each.when,
            where=each.where,
            who="" if mine else visit.owner or ANYBODY,
            part=each.part,
            missed=missed(self.site, visit),
            overdue=each.overdue,
            fault=each.fault,
        )

    def take(self, visit: Visit) -> Response:
        """Take a booked visit, or begin one without a call."""
        if visit.form.get("job"):
            return self._take_over(visit, visit.form["job"])
        call, typed = visit.form.get("call", ""), visit.form.get("key", "")
        kept = self.site.store.calls.call(call) if call else None
        if kept and read_call(kept.events).called_off:
            return RedirectResponse(f"{VISITS}?lacking=off", 303)
        fault = self._fault(visit.form.get("fault", "")) or (self.book.fault_of(call) if kept else None)
        key = kept.home if kept else keys.tidy(typed) or ""
        home = self.book.home(key)
        if fault is None:
            return RedirectResponse(f"{VISITS}?lacking=fault", 303)
        if kept is None and home is None:
            return RedirectResponse(f"{VISITS}?lacking=home", 303)
        job = self.site.store.jobs.begin(self._job(fault, home, kept.id if kept else "", visit.who.name))
        return RedirectResponse(f"{VISITS}/{job.id}", 303)

    def _take_over(self, visit: Visit, job: str) -> Response:
        """A second visit that waits, or a colleague's."""
        if not self.site.store.appointments.take(job, visit.who.name, self.site.now()):
            return RedirectResponse(VISITS, 303)
        return RedirectResponse(f"{VISITS}/{job}", 303)

    def _fault(self, id: str) -> Article | None:
        return next((each for each in self.site.library.faults() if each.id == id), None)

    def _job(self, fault: Article, home: Home | None, call: str, by: str) -> Job:
        now = self.site.now()
        known = {
            "unsafe-fuel": home.known.facts.get("fuel", "") if home else "",
            "charge": "warranty" if home and self._under_warranty(home.key, by) else "",
        }
        entries = tuple(
            Entry(f"known-{field}", number, field, text, by, now)
            for number, (field, text) in enumerate(known.items(), 1)
            if text
        )
        key, family = (home.key, home.range) if home else ("", "")
        return Job(token_urlsafe(12), fault.id, now, by, key, call, family, entries)

    def _under_warranty(self, key: str, by: str) -> bool:
        record = self.site.store.register.read(key, by)
        ends = record.appliances[0].warranty_ends if record else None
        return ends is not None and ends >= self.book.today()

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
            again=self._again(seen),
            missed=self.leaver.words(seen),
            off=self.leaver.is_off(seen),
            base=ROOM,
        )
        return answer(page, policy=WITH_SCRIPT)

    def _again(self, seen: Seen) -> str:
        """Where the second visit lies that this one left."""
        again = self.site.store.jobs.returning(seen.job.id)
        return f"{VISITS}/{again}" if again else ""

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
        if closed.travel is not None:
            yield "Minutes on the road", str(closed.travel)
        options = seen.written.form.by_id
        if closed.charge:
            yield "Who pays", options["charge"].options.get(closed.charge, closed.charge)
        if closed.card_words:
            yield "The card must change", closed.card_words
        if closed.unsafe:
            yield "Unsafe", options["unsafe-class"].options.get(closed.unsafe, closed.unsafe)
        if closed.report_by:
            yield "Report under RIDDOR 11(2) by", f"{closed.report_by:%-d %B %Y}"

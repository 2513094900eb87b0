"""Addresses of the work on site: its page, what is sent as a form, one entry sent by the script."""

import re
from collections.abc import Iterator, Mapping
from secrets import token_urlsafe
from typing import Final

from fastapi import APIRouter
from starlette.responses import JSONResponse, RedirectResponse, Response

from kb.appointment import NotMade
from kb.guide import NONE_OF_THESE
from kb.handover.record import ENTRY_ID, Entry, texts
from kb.staff import Role
from kb.visit.changing import known_now
from kb.visit.closing import due, lacking
from kb.visit.job import CLOSE, DANGER, LONGEST_FIELD, READING
from kb.visit.readings import Reading, read
from server.engineer.forms import keepable, sent_text
from server.engineer.jobs import VISITS, JobBook, Seen
from server.engineer.leaving import GONE, Leaver, from_form, read_gone
from server.engineer.visit_showing import causes_shown, day, lacking_shown, site_page
from server.site import Site
from server.staff import Door, Visit
from server.staff.pages import staff_frame
from server.store.jobs import NoSuchJob
from server.web.errors import NotFound
from server.web.pages import SECURITY, WITH_SCRIPT, Page, answer

LEAP: Final = 10_000
"""How far ahead of a job's clock an entry may be: further than anybody writes without a signal."""

_FIELD: Final = re.compile(r"answer:[a-z0-9-]+#[a-z0-9-]+|reading:[A-Za-z0-9_-]{8,60}|danger|close|gone", re.ASCII)
_UNKEPT: Final = {**SECURITY, "cache-control": "no-store"}


def routes(site: Site) -> APIRouter:
    """The page on site, its forms, and its entries."""
    router = APIRouter()
    door, room, one = Door(site), _OnSite(site), VISITS + "/{job}"
    for path, method, endpoint in (
        (f"{one}/site", "GET", door.reading(Role.ENGINEER, room.show)),
        (f"{one}/site", "POST", door.changing(Role.ENGINEER, room.save)),
        (f"{one}/entries", "POST", door.changing(Role.ENGINEER, room.keep)),
    ):
        router.add_api_route(path, endpoint, methods=[method], response_model=None)
    return router


class _OnSite:
    def __init__(self, site: Site) -> None:
        self.site = site
        self.book = JobBook(site)
        self.leaver = Leaver(site)

    def show(self, visit: Visit) -> Response:
        """The page; a job that is closed or called off has its brief alone."""
        seen = self.book.find(visit.request)
        if seen.job.closed is not None or self.leaver.is_off(seen):
            return RedirectResponse(seen.address, 303)
        return answer(self._page(visit, seen), policy=WITH_SCRIPT)

    def _page(self, visit: Visit, seen: Seen, alert: str = "") -> Page:
        frame = staff_frame(self.site, visit)
        leaving = self.leaver.shown(seen, visit.form)
        return site_page(frame, self.site, seen, alert, self._asked(seen), leaving, self.leaver.stood(seen))

    def _asked(self, seen: Seen) -> bool:
        """Whether somebody has tried to close the job."""
        return bool(seen.job.texts.get(CLOSE))

    def save(self, visit: Visit) -> Response:
        """Keep what a form says; with its closing button, close the job unless something is missing."""
        seen = self.book.find(visit.request)
        if GONE in visit.form:
            return self._leave(visit, seen)
        reading = self._reading(visit.form)
        if isinstance(reading, str):
            return answer(self._page(visit, seen, reading), 422, policy=WITH_SCRIPT)
        changed = dict(self._changed(visit, seen))
        if reading is not None:
            changed[reading.field] = str(reading)
        for place, (field, text) in enumerate(changed.items(), seen.job.clock + 1):
            self._keep(seen, Entry(token_urlsafe(12), place, field, text, visit.who.name, self.site.now()))
        after = self.book.find(visit.request)
        if after.job.closed is not None:
            return RedirectResponse(after.address, 303)
        return RedirectResponse(f"{seen.address}/site{_anchor(visit.form)}", 303)

    def _leave(self, visit: Visit, seen: Seen) -> Response:
        """Nobody was in, or it is not needed."""
        gone = from_form(visit.form)
        turn = self.leaver.turn(seen, gone, visit.who.name)
        if turn is None:
            return RedirectResponse(seen.address, 303)
        if not isinstance(turn, NotMade):
            return answer(self._page(visit, seen, str(turn)), 422, policy=WITH_SCRIPT)
        place = seen.job.clock + 1
        self._keep(seen, Entry(token_urlsafe(12), place, GONE, str(gone), visit.who.name, self.site.now()))
        return RedirectResponse(VISITS, 303)

    def _changed(self, visit: Visit, seen: Seen) -> Iterator[tuple[str, str]]:
        """What somebody changed on the page they were shown: a field left alone undoes nothing written since."""
        clock = visit.form.get("clock", "")
        until = int(clock) if clock.isascii() and clock.isdigit() and len(clock) < 17 else seen.job.clock
        shown = texts(entry for entry in seen.job.entries if entry.sequence <= until)
        before = known_now(seen.written, seen.home) if seen.home else {}
        for field, text in self._sent(visit, seen):
            if text not in (shown.get(field, before.get(field, "")), seen.job.texts.get(field, before.get(field, ""))):
                yield field, text

    def _sent(self, visit: Visit, seen: Seen) -> Iterator[tuple[str, str]]:
        """Every field that a form says something about; its closing button comes last."""
        form = visit.form
        for field in seen.written.form.by_id.values():
            text = sent_text(field, form)
            if text is not None:
                yield field.id, text
        for name, text in form.items():
            if _FIELD.fullmatch(name) and name != CLOSE:
                yield name, keepable(text)
        now = f"{self.site.now().astimezone(self.site.firm.clock):%H:%M}"
        if form.get("now") == "arrived":
            yield "arrived", now
        if CLOSE in form:
            if not form.get("left", "") and not seen.job.texts.get("left"):
                yield "left", now
            yield CLOSE, self.site.now().isoformat()

    def _reading(self, form: Mapping[str, str]) -> Reading | str | None:
        if "figure" not in form:
            return None
        found = read(form["figure"], form.get("unit", ""), form.get("where", ""), f"{READING}{token_urlsafe(9)}")
        return found if isinstance(found, Reading) else str(found)

    def keep(self, visit: Visit) -> Response:
        """Keep one entry; the answer says that it is kept, and what follows from it."""
        seen = self.book.find(visit.request)
        entry = self._entry(visit, seen)
        if entry is None:
            return JSONResponse({"refused": "This cannot be kept."}, 422, SECURITY)
        late = seen.job.closed is not None
        self._keep(seen, entry)
        after = self.book.find(visit.request)
        news = self._news(after)
        if entry.field == GONE and not news["closed"]:
            news["closed"] = VISITS
        return JSONResponse({"kept": entry.id, "late": late, **news}, 200, _UNKEPT)

    def _entry(self, visit: Visit, seen: Seen) -> Entry | None:
        """The entry a script sent, or None for what no page of ours would send."""
        id, field, text = (visit.form.get(name, "") for name in ("id", "field", "text"))
        sequence = visit.form.get("sequence", "")
        known = field in seen.written.form.by_id or (len(field) <= LONGEST_FIELD and _FIELD.fullmatch(field))
        whole = sequence.isascii() and sequence.isdigit() and 0 < int(sequence[:17]) <= seen.job.clock + LEAP
        meant = field != DANGER or text in ("", NONE_OF_THESE)
        if field == GONE and not self._may_go(visit, seen, text):
            return None
        if not (known and whole and meant and ENTRY_ID.fullmatch(id)) or keepable(text) != text:
            return None
        return Entry(id, int(sequence), field, text, visit.who.name, self.site.now())

    def _may_go(self, visit: Visit, seen: Seen, text: str) -> bool:
        """Whether a visit may be left so; one that is not to be made any more keeps what is said of it."""
        gone = read_gone(text)
        if gone is None:
            return False
        turn = self.leaver.turn(seen, gone, visit.who.name)
        return turn is None or isinstance(turn, NotMade)

    def _keep(self, seen: Seen, entry: Entry) -> None:
        """Keep an entry; one that asks for the closing closes the job, unless something is missing.

        A closing that was kept by a process that was killed before it closed is sent again, and closes then.
        """
        try:
            self.site.store.jobs.save(seen.job.id, entry)
        except NoSuchJob:
            raise NotFound from None
        if entry.field == GONE:
            self.leaver.keep(seen, entry)
        if entry.field != CLOSE or not entry.text:
            return
        job = self.site.store.jobs.job(seen.job.id)
        after = self.book.read(job) if job else None
        if after is not None and after.job.closed is None and not lacking(after.written):
            book = self.book
            closed, given, then = book.closed(after, entry.by), book.evidence(after), book.after(after, entry.by)
            self.site.store.jobs.close(after.job.id, closed, given, then)

    def _news(self, seen: Seen) -> dict[str, object]:
        """What a page shows anew after an entry was kept."""
        problems = {id: str(value.problem) for id, value in seen.written.values.items() if value.problem}
        report = due(seen.written)
        missing = lacking_shown(seen) if self._asked(seen) else ()
        return {
            "clock": seen.job.clock,
            "problems": problems,
            "causes": causes_shown(seen),
            "lacking": [[each.field, each.words, each.why] for each in missing],
            "report": day(report) if report else "",
            "closed": seen.address if seen.job.closed else "",
        }


def _anchor(form: Mapping[str, str]) -> str:
    if CLOSE in form or "cause" in form:
        return "#close"
    return "#readings" if "figure" in form or any(name.startswith(READING) for name in form) else "#checks"

"""The list of visits and the page on which one is moved or called off, in the room of whoever may do so."""

from datetime import datetime
from secrets import token_hex

from fastapi import APIRouter
from starlette.responses import RedirectResponse, Response

from kb.appointment import OFF, NotMade, Turn, Unfit, left, moment, words
from kb.desk.words import PACE_WORDS, day_and_time
from kb.staff import Role
from server.diary.booking import booking, chosen
from server.diary.leaving import leaving, missed, not_made, one_line
from server.diary.pages import DiaryPage, DiaryRow, MovePage
from server.diary.planned import ANYBODY, Planned, planned, told_in
from server.diary.reading import reading_of
from server.site import Site
from server.staff import Door, Visit
from server.staff.pages import staff_frame
from server.web.errors import NotFound
from server.web.pages import WITH_SCRIPT, answer
from server.web.static import asset


def routes(site: Site, room: str, role: Role, name: str) -> APIRouter:
    """The diary behind a room's own address, for those whose room it is."""
    router = APIRouter(include_in_schema=False)
    door, diary = Door(site), _Diary(site, room, name)
    one = f"{room}/visits/{{visit}}"
    for path, method, endpoint in (
        (f"{room}/visits", "GET", door.reading(role, diary.list)),
        (one, "GET", door.reading(role, diary.show)),
        (one, "POST", door.changing(role, diary.move)),
        (f"{one}/off", "POST", door.changing(role, diary.call_off)),
    ):
        router.add_api_route(path, endpoint, methods=[method], response_model=None)
    return router


class _Diary:
    def __init__(self, site: Site, room: str, name: str) -> None:
        self.site = site
        self.room = room
        self.name = name

    def list(self, visit: Visit) -> Response:
        """Every visit still to be made."""
        rows = tuple(self._row(each) for each in planned(self.site, visit.who.name))
        page = DiaryPage(
            frame=staff_frame(self.site, visit),
            script=asset("desk.js").address,
            style=asset("desk.css").address,
            back=(self.name, self.room),
            rows=rows,
            overdue=sum(bool(row.overdue) for row in rows),
        )
        return answer(page, policy=WITH_SCRIPT)

    def show(self, visit: Visit) -> Response:
        """One visit."""
        return self._page(visit, self._find(visit), "")

    def move(self, visit: Visit) -> Response:
        """Another time, or somebody else."""
        found = self._find(visit)
        pace, asked = found.pace, self._asked(found)
        agreed = chosen(self.site, pace, asked, visit.form, one_line(visit.form.get("why", "")), visit.who.name)
        if isinstance(agreed, Unfit):
            return self._page(visit, found, str(agreed), 422)
        sent = f"moved-{visit.form.get('id', '')[:40] or token_hex(8)}"
        if not self.site.store.appointments.move(found.visit.id, agreed, sent):
            raise NotFound
        return RedirectResponse(f"{self.room}/visits", 303)

    def call_off(self, visit: Visit) -> Response:
        """Nobody goes; sent twice, it is done once."""
        form, id = visit.form, visit.request.path_params["visit"]
        appointments = self.site.store.appointments
        to_leave = appointments.one(id)
        if to_leave is None:
            return RedirectResponse(f"{self.room}/visits", 303)
        reason, more = form.get("reason", ""), form.get("words", "")
        turn = not_made(self.site, to_leave, OFF, reason, more, visit.who.name)
        if not isinstance(turn, NotMade):
            return self._page(visit, self._find(visit), str(turn), 422)
        appointments.leave(id, turn, f"off-{form.get('id', '')[:40] or token_hex(8)}")
        return RedirectResponse(f"{self.room}/visits", 303)

    def _find(self, visit: Visit) -> Planned:
        found = planned(self.site, visit.who.name, visit.request.path_params["visit"])
        if not found:
            raise NotFound
        return found[0]

    def _asked(self, found: Planned) -> datetime | None:
        """When the pace of a first visit began to run; a second one has none that runs."""
        reading = reading_of(self.site, found.visit.call) if not found.visit.returns else None
        return reading.call.began if reading else None

    def _page(self, visit: Visit, found: Planned, alert: str, status: int = 200) -> Response:
        call = told_in(found.visit)
        page = MovePage(
            frame=staff_frame(self.site, visit),
            script=asset("desk.js").address,
            style=asset("desk.css").address,
            room=self.room,
            id=token_hex(8),
            alert=alert,
            row=self._row(found),
            trail=tuple(self._line(each) for each in self.site.store.appointments.trail(found.visit)),
            booking=booking(self.site, found.pace, self._asked(found), found.visit.owner, visit.form),
            leaving=leaving(self.site, found.visit, visit.form),
            note=f"/desk/{call}/note" if call and visit.who.may(Role.DESK) else "",
        )
        return answer(page, status, policy=WITH_SCRIPT)

    def _row(self, each: Planned) -> DiaryRow:
        agreed = each.visit.agreed
        late = agreed is not None and agreed.latest is not None and bool(agreed.why)
        return DiaryRow(
            address=f"{self.room}/visits/{each.visit.id}",
            title=each.title,
            where=each.where,
            pace=PACE_WORDS[each.pace],
            when=each.when,
            who=each.visit.owner or ANYBODY,
            overdue=each.overdue,
            part=each.part,
            late=f"Later than the pace wanted: {agreed.why}" if agreed and late else "",
            missed=missed(self.site, each.visit),
        )

    def _line(self, agreed: Turn) -> tuple[str, str]:
        zone = self.site.firm.clock
        at = day_and_time(agreed.at, zone) if agreed.at else ""
        if isinstance(agreed, NotMade):
            return f"{agreed.by}, {at}", left(agreed)
        said = f"{words(agreed.window)}: {agreed.engineer or ANYBODY}."
        later = f" Later than {moment(agreed.latest, zone)}" if agreed.why and agreed.latest else ""
        why = f"{later or ' Because'}: {agreed.why}." if agreed.why else ""
        return f"{agreed.by}, {at}", said + why

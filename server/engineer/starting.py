"""The room's first page: records that wait, a home to begin one for, articles, calculations."""

from collections.abc import Callable, Sequence
from typing import Final

from fastapi import APIRouter
from starlette.responses import RedirectResponse, Response

from kb.days import short_day
from kb.header import Kind
from kb.home import Home
from kb.register import understand
from kb.staff import Role
from server.engineer.book import ROOM, Book, Opened
from server.engineer.pages import EngineerPage, FoundHome, Link, OpenRecord
from server.engineer.showing import done
from server.finding import MOST, joined, keys_of, typed_in
from server.site import Site
from server.staff import Door, Visit
from server.staff.pages import staff_frame
from server.web.pages import WITH_SCRIPT, Page, answer
from server.web.static import scripts

UNKNOWN: Final = "No home has this key. Look at it again, find the home by its appliance, or begin with a new home."
NOTHING: Final = "No home was found for that."


def routes(site: Site) -> APIRouter:
    """The first page, and homes found from it."""
    router = APIRouter()
    door, room = Door(site), _First(site)
    for path, method, endpoint in (
        (ROOM, "GET", door.reading(Role.ENGINEER, room.show)),
        (f"{ROOM}/find", "POST", door.changing(Role.ENGINEER, room.find)),
        (f"{ROOM}/found/{{keys}}", "GET", door.reading(Role.ENGINEER, room.found)),
    ):
        router.add_api_route(path, endpoint, methods=[method], response_model=None)
    return router


class _First:
    def __init__(self, site: Site) -> None:
        self.site = site
        self.book = Book(site)

    def show(self, visit: Visit) -> Response:
        """The first page."""
        return answer(self._page(visit, UNKNOWN if "unknown" in visit.request.query_params else ""), policy=WITH_SCRIPT)

    def find(self, visit: Visit) -> Response:
        """Look, and go on to what was found."""
        return sought(self.site, visit, f"{ROOM}/found", lambda alert, typed: self._page(visit, alert, typed))

    def found(self, visit: Visit) -> Response:
        """The homes that were found."""
        found = homes_of(self.site, keys_of(visit.request), visit.who.name)
        page = self._page(visit, "" if found else NOTHING, found=found)
        return answer(page, 200 if found else 404, policy=WITH_SCRIPT)

    def _page(self, visit: Visit, alert: str = "", typed: str = "", found: tuple[FoundHome, ...] = ()) -> EngineerPage:
        library = self.site.library
        return EngineerPage(
            frame=staff_frame(self.site, visit),
            scripts=scripts("entries.js"),
            alert=alert,
            records=tuple(self._open(self.book.read(r)) for r in self.site.store.handovers.open_by(visit.who.name)),
            sought=typed,
            found=found,
            settings=tuple(Link(each.title, f"{ROOM}/help/{each.id}") for each in library.settings()),
            faults=tuple(Link(each.title, f"{ROOM}/help/{each.id}") for each in library.faults()),
            others=tuple(
                Link(each.title, f"{ROOM}/help/{each.id}")
                for each in library.articles.values()
                if each.header.kind is Kind.SHARED and each.steps and each.id != "tried"
            ),
        )

    def _open(self, opened: Opened) -> OpenRecord:
        counts = [done(opened.state, section) for section in opened.state.form.sections]
        local = opened.record.begun.astimezone(self.site.firm.clock)
        left = sum(of - filled for filled, of in counts)
        return OpenRecord(
            opened.title,
            opened.address,
            f"{short_day(local)}, {local:%H:%M}",
            f"{left} still to fill in" if left else "to sign",
        )


def sought(site: Site, visit: Visit, way: str, page: Callable[[str, str], Page]) -> Response:
    """Go on to the keys of what somebody typed, or show the page again with it where nothing was found."""
    typed = typed_in(visit.form.get("find", ""))
    found = _found_keys(site, typed, visit.who.name) if typed else []
    if found:
        return RedirectResponse(f"{way}/{joined(found)}", 303)
    return answer(page(NOTHING if typed else "", typed), 404 if typed else 200, policy=WITH_SCRIPT)


def homes_of(site: Site, keys: Sequence[str], by: str) -> tuple[FoundHome, ...]:
    """Homes that were found before, in the order of their keys."""
    hits = site.store.lists.hits(keys, by) if keys else ()
    where = {hit.key: ", ".join(filter(None, (*hit.names, *hit.lines, hit.postcode))) for hit in hits}
    homes = [home for key in keys if isinstance(home := site.store.home(key), Home)]
    return tuple(FoundHome(each.key, each.appliance, where.get(each.key, "")) for each in homes)


def _found_keys(site: Site, typed: str, by: str) -> list[str]:
    """The homes that the register finds, or those with an appliance of such a name."""
    hits = site.store.register.find(understand(typed, site.firm.region), by, MOST)
    open_ = [hit.key for hit in hits if isinstance(site.store.home(hit.key), Home)]
    return open_ or [home.key for home in site.store.named(typed, MOST)]

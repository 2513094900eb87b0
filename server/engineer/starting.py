"""The room's first page: records that wait, a home to begin one for, articles, calculations."""

from typing import Final

from fastapi import APIRouter
from starlette.responses import Response

from kb.days import short_day
from kb.header import Kind
from kb.home import Home
from kb.register import understand
from kb.staff import Role
from server.engineer.book import ROOM, Book, Opened
from server.engineer.pages import EngineerPage, FoundHome, Link, OpenRecord
from server.engineer.showing import done
from server.site import Site
from server.staff import Door, Visit
from server.staff.pages import staff_frame
from server.web.pages import WITH_SCRIPT, answer
from server.web.static import scripts

MOST_FOUND: Final = 20
UNKNOWN: Final = "No home has this key. Look at it again, find the home by its appliance, or begin with a new home."
NOTHING: Final = "No home was found for that."


def routes(site: Site) -> APIRouter:
    """The first page."""
    router = APIRouter()
    room = _First(site)
    router.add_api_route(ROOM, Door(site).reading(Role.ENGINEER, room.show), methods=["GET"], response_model=None)
    return router


class _First:
    def __init__(self, site: Site) -> None:
        self.site = site
        self.book = Book(site)

    def show(self, visit: Visit) -> Response:
        """The first page, with the homes that were sought."""
        sought = visit.request.query_params.get("find", "").strip()[:60]
        unknown = "unknown" in visit.request.query_params
        found = found_homes(self.site, sought, visit.who.name) if sought else ()
        alert = UNKNOWN if unknown else NOTHING if sought and not found else ""
        library = self.site.library
        page = EngineerPage(
            frame=staff_frame(self.site, visit),
            scripts=scripts("entries.js"),
            alert=alert,
            records=tuple(self._open(self.book.read(r)) for r in self.site.store.handovers.open_by(visit.who.name)),
            sought=sought,
            found=found,
            settings=tuple(Link(each.title, f"{ROOM}/help/{each.id}") for each in library.settings()),
            faults=tuple(Link(each.title, f"{ROOM}/help/{each.id}") for each in library.faults()),
            others=tuple(
                Link(each.title, f"{ROOM}/help/{each.id}")
                for each in library.articles.values()
                if each.header.kind is Kind.SHARED and each.steps and each.id != "tried"
            ),
        )
        return answer(page, policy=WITH_SCRIPT)

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


def found_homes(site: Site, sought: str, by: str) -> tuple[FoundHome, ...]:
    """The homes that the register finds, or those with an appliance of such a name."""
    store = site.store
    hits = store.register.find(understand(sought, site.firm.region), by, MOST_FOUND)
    where = {hit.key: ", ".join(filter(None, (*hit.names, *hit.lines, hit.postcode))) for hit in hits}
    homes = [home for key in where if isinstance(home := store.home(key), Home)] or store.named(sought, MOST_FOUND)
    return tuple(FoundHome(each.key, each.appliance, where.get(each.key, "")) for each in homes)

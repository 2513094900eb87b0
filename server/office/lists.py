"""Homes from a file and into one."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from starlette.concurrency import iterate_in_threadpool
from starlette.responses import Response, StreamingResponse

from kb.listing import COLUMNS, TEMPLATE, listing, read_listing
from kb.listing.columns import name_of
from kb.listing.writing import BYTE_ORDER_MARK
from kb.register import Chosen
from server.office.importing import page_as_it_goes
from server.office.list_pages import ColumnRow, ListPage
from server.office.room import LONGEST_LIST, ROOM, Room, Ways
from server.staff import Visit
from server.store.register import EVERYTHING, Taken, Tell
from server.web.pages import PRIVATE, SECURITY, answer

_NO_FILE: Final = "Choose a file first."
_HEADERS: Final = {**SECURITY, "cache-control": PRIVATE, "x-robots-tag": "noindex"}


def add(ways: Ways, room: Room) -> None:
    """The page of lists, and its files."""
    lists = _Lists(room)
    ways.shows(f"{ROOM}/list", lists.show)
    ways.does(f"{ROOM}/list", lists.take, longest=LONGEST_LIST)
    ways.shows(f"{ROOM}/list/template.csv", lists.template)
    ways.shows(f"{ROOM}/list/homes.csv", lists.export)


@dataclass(frozen=True, slots=True)
class _Lists:
    room: Room

    def show(self, visit: Visit) -> Response:
        return answer(self._page(visit))

    def take(self, visit: Visit) -> Response:
        """Take a file in, or look at it alone; with anything wrong in it nothing is taken."""
        text, dry_run = visit.form.get("file", ""), visit.form.get("do") != "import"
        if not text.strip():
            return answer(self._page(visit, _NO_FILE), 422)
        read, firm = read_listing(text), self.room.site.firm
        look = dry_run or bool(read.problems)

        def work(tell: Tell) -> Taken:
            lists = self.room.site.store.lists
            return lists.take(read.rows, firm.region, self.room.today, visit.who.name, look, tell)

        pieces = page_as_it_goes(self._page(visit), read, work, look)
        return StreamingResponse(iterate_in_threadpool(pieces), headers=_HEADERS, media_type="text/html")

    def template(self, visit: Visit) -> Response:
        return _file(BYTE_ORDER_MARK + ",".join(name_of(path) for path in TEMPLATE) + "\r\n", "homes-template.csv")

    def export(self, visit: Visit) -> Response:
        return homes_as_table(self.room, visit)

    def _page(self, visit: Visit, alert: str = "") -> ListPage:
        return ListPage(self.room.frame(visit), alert, EXPLAINED)


EXPLAINED: Final = tuple(ColumnRow(each.name, each.expects, tuple(each.values.items())) for each in COLUMNS)
"""Every column, as the page explains it."""


def homes_as_table(room: Room, visit: Visit, wanted: Chosen = EVERYTHING) -> Response:
    """The homes that are chosen as a table that can be imported again."""
    lines = listing(room.site.store.lists.every(visit.who.name, wanted), room.site.firm.region)
    return _file(lines, "homes.csv")


def _file(lines: str | Iterator[str], name: str) -> Response:
    headers = {
        **SECURITY,
        "cache-control": PRIVATE,
        "content-disposition": f'attachment; filename="{name}"',
    }
    sent = iter([lines]) if isinstance(lines, str) else lines
    return StreamingResponse(iterate_in_threadpool(sent), headers=headers, media_type="text/csv; charset=utf-8")

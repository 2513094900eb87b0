"""Homes from a file and into one."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from starlette.concurrency import iterate_in_threadpool
from starlette.responses import Response, StreamingResponse

from kb.listing import COLUMNS, TEMPLATE, Problem, listing, read_listing
from kb.listing.columns import name_of
from kb.listing.writing import BYTE_ORDER_MARK
from server.office.list_pages import ColumnRow, ListPage
from server.office.room import LONGEST_LIST, ROOM, Room, Ways
from server.staff import Visit
from server.store.register import Taken
from server.web.pages import PRIVATE, SECURITY, answer

MOST_TOLD: Final = 1_000
"""How many problems a page shows; who has more mends these first."""

_NO_FILE: Final = "Choose a file first."


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
            return answer(self._page(visit, alert=_NO_FILE), 422)
        read = read_listing(text)
        firm = self.room.site.firm
        taken = self.room.site.store.lists.take(
            read.rows, firm.region, self.room.today, visit.who.name, dry_run or bool(read.problems)
        )
        problems = (*read.problems, *taken.problems)
        if problems:
            return answer(self._page(visit, alert=_told(problems), problems=problems), 422)
        return answer(self._page(visit, done=_done(taken, dry_run)))

    def template(self, visit: Visit) -> Response:
        return _file(BYTE_ORDER_MARK + ",".join(name_of(path) for path in TEMPLATE) + "\r\n", "homes-template.csv")

    def export(self, visit: Visit) -> Response:
        lines = listing(self.room.site.store.lists.every(visit.who.name), self.room.site.firm.region)
        return _file(lines, "homes.csv")

    def _page(self, visit: Visit, done: str = "", alert: str = "", problems: tuple[Problem, ...] = ()) -> ListPage:
        rows = tuple(
            (str(each.row), each.column, f"Expected {each.expected}, found {each.found}.", each.next_step)
            for each in sorted(problems, key=lambda each: each.row)[:MOST_TOLD]
        )
        return ListPage(self.room.frame(visit), done, alert, rows, EXPLAINED)


EXPLAINED: Final = tuple(ColumnRow(each.name, each.expects, tuple(each.values.items())) for each in COLUMNS)
"""Every column, as the page explains it."""


def _told(problems: tuple[Problem, ...]) -> str:
    many = "One thing is" if len(problems) == 1 else f"{len(problems):,} things are"
    more = f" The first {MOST_TOLD:,} are shown." if len(problems) > MOST_TOLD else ""
    return f"{many} to be mended. Nothing was imported.{more}"


def _done(taken: Taken, dry_run: bool) -> str:
    count = f"{taken.new:,} new homes, {taken.changed:,} changed, {taken.same:,} as they were."
    if dry_run:
        return f"Nothing is wrong in this file: {count} Choose it again and press Import."
    return f"Imported: {count}"


def _file(lines: str | Iterator[str], name: str) -> Response:
    headers = {
        **SECURITY,
        "cache-control": PRIVATE,
        "content-disposition": f'attachment; filename="{name}"',
    }
    sent = iter([lines]) if isinstance(lines, str) else lines
    return StreamingResponse(iterate_in_threadpool(sent), headers=headers, media_type="text/csv; charset=utf-8")

"""What falls due, month by month."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from starlette.responses import Response

from kb.days import full_day
from kb.register import DUE, NEVER_OVERDUE, Due, Month, month_of, read_month
from server.office.list_pages import DueGroup, DuePage, DueRow
from server.office.pages import Link
from server.office.room import ROOM, Room, Ways, home_address
from server.staff import Visit
from server.web.errors import NotFound
from server.web.pages import answer

AHEAD: Final = 12
"""How many months are offered at a time."""

EVER: Final = date(1900, 1, 1)
LATE: Final = tuple(kind for kind in DUE if kind not in NEVER_OVERDUE)


def add(ways: Ways, room: Room) -> None:
    """The page of a month."""
    ways.shows(f"{ROOM}/due", _Months(room).show)


@dataclass(frozen=True, slots=True)
class _Months:
    room: Room

    def show(self, visit: Visit) -> Response:
        now = month_of(self.room.today)
        asked = visit.request.query_params.get("month")
        month = read_month(asked) if asked else now
        if month is None:
            raise NotFound
        lists, by = self.room.site.store.lists, visit.who.name
        found = lists.due(month.first, month.after(1).first, by)
        late = lists.due(EVER, month.first, by, LATE) if month == now else ()
        return answer(
            DuePage(
                self.room.frame(visit),
                f"Due in {_words(month)}",
                _groups(found),
                _groups(late),
                _link(month.after(-1)),
                _link(month.after(1)),
                tuple(_link(now.after(n)) for n in range(AHEAD)),
                Link("Homes with a service by then, to save or to print", f"{ROOM}/homes?service={month}"),
            )
        )


def _groups(found: Sequence[Due]) -> tuple[DueGroup, ...]:
    return tuple(
        DueGroup(words, tuple(_row(each) for each in found if each.kind == kind))
        for kind, words in DUE.items()
        if any(each.kind == kind for each in found)
    )


def _row(due: Due) -> DueRow:
    place = ", ".join(part for part in (*due.lines, due.town, due.postcode) if part)
    anchor = "#people" if due.person is not None else ""
    return DueRow(full_day(due.day), due.what, place or due.key, f"{home_address(due.key)}{anchor}")


def _link(month: Month) -> Link:
    return Link(_words(month), f"{ROOM}/due?month={month}")


def _words(month: Month) -> str:
    return f"{month.first:%B %Y}"

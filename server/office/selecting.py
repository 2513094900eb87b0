"""A list of homes by range, what is due, place or card: looked through, saved as a table, printed as cards."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final
from urllib.parse import parse_qsl

from starlette.responses import RedirectResponse, Response

from kb.days import full_day
from kb.home import Home
from kb.register import Chosen
from server.office.cards import NONE_PRINTED, marked, pdf
from server.office.figure_pages import Choice
from server.office.list_pages import ChosenCardsPage, ChosenPage, ChosenRow
from server.office.lists import homes_as_table
from server.office.pages import Link
from server.office.press import Press, press_for
from server.office.room import ROOM, Room, Ways, home_address
from server.office.wishes import as_query, asked, fields
from server.preview import SIZES
from server.staff import Visit
from server.store.register import ChosenHome
from server.web.errors import NotFound
from server.web.pages import answer

HERE: Final = f"{ROOM}/homes"
AT_ONCE: Final = 100
"""How many homes stand on a page."""

LAST: Final = 1_000


def add(ways: Ways, room: Room) -> None:
    """The list, its table, and its cards."""
    chosen = _Selecting(room, press_for(room.site))
    ways.shows(HERE, chosen.show)
    ways.shows(f"{HERE}.csv", chosen.table)
    ways.shows(f"{ROOM}/print", chosen.cards)
    ways.does(f"{ROOM}/print", chosen.print)
    ways.does(f"{ROOM}/print/printed", chosen.mark)


@dataclass(frozen=True, slots=True)
class _Selecting:
    room: Room
    press: Press

    def show(self, visit: Visit) -> Response:
        chosen, page = asked(visit.request.query_params), _number(visit, "page", LAST)
        many, found = self.room.site.store.lists.chosen(chosen, visit.who.name, AT_ONCE, (page - 1) * AT_ONCE)
        return answer(
            ChosenPage(
                self.room.frame(visit),
                fields(self.room, chosen),
                _homes(many),
                tuple(map(_row, found)),
                Link("Save them as a table", f"{HERE}.csv?{as_query(chosen)}"),
                Link("Print their cards", f"{ROOM}/print?{as_query(chosen)}"),
                tuple(_pages(chosen, page, many)),
            )
        )

    def table(self, visit: Visit) -> Response:
        return homes_as_table(self.room, visit, asked(visit.request.query_params))

    def cards(self, visit: Visit) -> Response:
        return answer(self._cards(visit, asked(visit.request.query_params), ""))

    def print(self, visit: Visit) -> Response:
        chosen, part, size = asked(visit.form), _number(visit, "part", LAST), self._size(visit)
        made = self.press.printed(self._some(chosen, part), size, bool(visit.form.get("sheet")))
        if made is None:
            return answer(self._cards(visit, chosen, NONE_PRINTED), 422)
        return pdf(made, f"cards-{size}-{part}.pdf")

    def mark(self, visit: Visit) -> Response:
        """Mark the cards that the page showed, as they were when it showed them."""
        marked(self.room, self.press, visit)
        return RedirectResponse(f"{HERE}?{as_query(asked(visit.form))}", 303)

    def _cards(self, visit: Visit, chosen: Chosen, alert: str) -> ChosenCardsPage:
        part, size = _number(visit, "part", LAST), self._size(visit)
        many, _ = self.room.site.store.lists.chosen(chosen, visit.who.name, 0)
        homes = self._some(chosen, part)
        prints = {home.key: self.press.fingerprint(home, size) for home in homes}
        here = f"{ROOM}/print?"
        parts = range(1, -(-many // self.press.most) + 1) if many > self.press.most else ()
        return ChosenCardsPage(
            self.room.frame(visit),
            alert,
            _homes(many),
            (part - 1) * self.press.most + 1,
            len(homes),
            _hidden(chosen, size, part),
            " ".join(f"{key}:{size}:{print}" for key, print in prints.items() if print),
            tuple(Link(key, home_address(key, "card")) for key, print in prints.items() if print is None),
            tuple(Choice(words, f"{here}{as_query(chosen, size=each)}", each == size) for each, words in SIZES.items()),
            tuple(Choice(str(n), f"{here}{as_query(chosen, size=size, part=n)}", n == part) for n in parts),
            Link("Back to the list", f"{HERE}?{as_query(chosen)}"),
        )

    def _some(self, chosen: Chosen, part: int) -> Sequence[Home]:
        return self.room.site.store.lists.homes(chosen, self.press.most, (part - 1) * self.press.most)

    def _size(self, visit: Visit) -> str:
        size = visit.form.get("size") or visit.request.query_params.get("size") or self.press.sizes[0]
        if size not in self.press.sizes:
            raise NotFound
        return size


def _number(visit: Visit, name: str, most: int) -> int:
    written = visit.form.get(name) or visit.request.query_params.get(name) or "1"
    if not written.isascii() or not written.isdigit() or not 1 <= int(written[:9]) <= most:
        raise NotFound
    return int(written)


def _homes(many: int) -> str:
    return "1 home" if many == 1 else f"{many:,} homes"


def _row(home: ChosenHome) -> ChosenRow:
    where = ", ".join((*home.lines, f"{home.town} {home.postcode}".strip()))
    return ChosenRow(
        where.strip(", ") or home.key,
        home_address(home.key),
        home.appliance,
        full_day(home.next_service),
        full_day(home.alarm_ends),
    )


def _pages(chosen: Chosen, page: int, many: int) -> Iterator[Link]:
    if page > 1:
        yield Link("← The page before", f"{HERE}?{as_query(chosen, page=page - 1)}")
    if page * AT_ONCE < many:
        yield Link("The next page →", f"{HERE}?{as_query(chosen, page=page + 1)}")


def _hidden(chosen: Chosen, size: str, part: int) -> tuple[tuple[str, str], ...]:
    return tuple(parse_qsl(as_query(chosen, size=size, part=part)))

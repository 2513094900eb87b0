"""A home's card as PDF, and all cards that are no longer as they were printed.

A card counts as printed once somebody says so: a PDF that never reached paper leaves the list as it was.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from starlette.responses import RedirectResponse, Response

from kb import keys
from kb.home import Home
from server.office.list_pages import CardsPage, ChangedCard, HomeCardPage
from server.office.press import Press, Printout, press_for
from server.office.room import ROOM, Room, Ways, day, home_address, title_of
from server.office.showing import SIZES
from server.staff import Visit
from server.store.register import Printed
from server.web.errors import NotFound
from server.web.pages import PRIVATE, SECURITY, answer

_MARK: Final = re.compile(r"(\S{17}):(\w{2,4}):([0-9a-f]{64})")
_NEW_KEY: Final = "The home has a new key."
_OTHER_WORDS: Final = "What stands on it changed."
_REFUSED: Final = "It may not be printed now; its page says why."
NONE_PRINTED: Final = "No card could be printed."


def add(ways: Ways, room: Room) -> None:
    """The pages of cards."""
    cards = _Cards(room, press_for(room.site))
    ways.shows(f"{ROOM}/cards", cards.changed)
    ways.does(f"{ROOM}/cards", cards.print_changed)
    ways.does(f"{ROOM}/cards/printed", cards.mark_changed)
    ways.shows(home_address("{key}", "card"), cards.of_home)
    ways.does(home_address("{key}", "card"), cards.print_one)
    ways.does(home_address("{key}", "card", "printed"), cards.mark_one)


@dataclass(frozen=True, slots=True)
class _Changed:
    home: Home
    printed: Printed
    now: str | None

    @property
    def mark(self) -> str:
        return f"{self.home.key}:{self.printed.size}:{self.now}"

    @property
    def why(self) -> str:
        if self.now is None:
            return _REFUSED
        return _NEW_KEY if self.printed.key != self.home.key else _OTHER_WORDS


@dataclass(frozen=True, slots=True)
class _Cards:
    room: Room
    press: Press

    def changed(self, visit: Visit) -> Response:
        return answer(self._list(visit, ""))

    def print_changed(self, visit: Visit) -> Response:
        size = self._size(visit)
        homes = [each.home for each in self._all_changed() if each.now and each.printed.size == size]
        made = self.press.printed(homes[: self.press.most], size, bool(visit.form.get("sheet")))
        if made.pdf is None:
            return answer(self._list(visit, NONE_PRINTED), 422)
        return pdf(made.pdf, f"changed-cards-{size}.pdf")

    def mark_changed(self, visit: Visit) -> Response:
        """Mark the cards that the page showed, as they were when it showed them."""
        marked(self.room, self.press, visit)
        return RedirectResponse(f"{ROOM}/cards", 303)

    def of_home(self, visit: Visit) -> Response:
        return answer(self._one(visit, ""))

    def print_one(self, visit: Visit) -> Response:
        home, size = self._home(visit), self._size(visit)
        made = self.press.printed([home], size, bool(visit.form.get("sheet")))
        if made.pdf is None:
            return answer(self._one(visit, "The card was not made.", made), 422)
        return pdf(made.pdf, f"card-{home.key}-{size}.pdf")

    def mark_one(self, visit: Visit) -> Response:
        home, size = self._home(visit), self._size(visit)
        now = self.press.fingerprint(home, size)
        if now is None:
            return answer(self._one(visit, "There is no card to mark: it may not be printed."), 422)
        _mark(self.room, self.press, visit, [(home.key, size, now)])
        return RedirectResponse(home_address(home.key, "card"), 303)

    def _all_changed(self) -> Iterator[_Changed]:
        for home, printed in self.room.site.store.register.cards():
            if printed.size not in self.press.sizes:
                continue
            now = self.press.fingerprint(home, printed.size)
            if now != printed.fingerprint or printed.key != home.key:
                yield _Changed(home, printed, now)

    def _list(self, visit: Visit, alert: str) -> CardsPage:
        found = tuple(self._all_changed())
        by_size = {
            size: [each for each in found if each.printed.size == size and each.now] for size in self.press.sizes
        }
        sizes = tuple(
            (size, " ".join(each.mark for each in cards[: self.press.most]), len(cards))
            for size, cards in by_size.items()
            if cards
        )
        return CardsPage(
            self.room.frame(visit), alert, tuple(_shown(each) for each in found), sizes, SIZES, self.press.most
        )

    def _one(self, visit: Visit, alert: str, made: Printout | None = None) -> HomeCardPage:
        record = self.room.record(visit)
        printed = self.room.site.store.lists.printed_of(record.key)
        return HomeCardPage(
            self.room.frame(visit),
            title_of(record),
            alert,
            made.refused.get(record.key, ()) if made else (),
            tuple((size, SIZES[size]) for size in self.press.sizes),
            tuple(f"{SIZES.get(each.size, each.size)}: {day(each.when.date())}" for each in printed),
            home_address(record.key, "card"),
            home_address(record.key),
        )

    def _home(self, visit: Visit) -> Home:
        home = self.room.site.store.home(self.room.key(visit))
        if not isinstance(home, Home):
            raise NotFound
        return home

    def _size(self, visit: Visit) -> str:
        size = visit.form.get("size", "")
        if size not in self.press.sizes:
            raise NotFound
        return size


def _shown(card: _Changed) -> ChangedCard:
    printed = f"{SIZES[card.printed.size]}, {day(card.printed.when.date())}"
    return ChangedCard(card.home.appliance, home_address(card.home.key), card.home.key, printed, card.why)


def marked(room: Room, press: Press, visit: Visit) -> None:
    """Mark the cards that a form names as printed, as they were when its page was shown."""
    _mark(room, press, visit, _marks(visit.form.get("cards", "")))


def _mark(room: Room, press: Press, visit: Visit, cards: Sequence[tuple[str, str, str]]) -> None:
    when = room.site.now()
    printed = (Printed(key, size, print, when) for key, size, print in cards if size in press.sizes)
    room.site.store.register.printed(printed, visit.who.name)


def _marks(sent: str) -> Sequence[tuple[str, str, str]]:
    found = (_MARK.fullmatch(each) for each in sent.split())
    return [(each[1], each[2], each[3]) for each in found if each and keys.tidy(each[1]) == each[1]]


def pdf(body: bytes, name: str) -> Response:
    """A PDF to be saved under a name."""
    headers = {
        **SECURITY,
        "cache-control": PRIVATE,
        "content-disposition": f'attachment; filename="{name}"',
    }
    return Response(body, headers=headers, media_type="application/pdf")

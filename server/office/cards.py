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
from kb.visit.job import Job
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
_BY_JOB: Final = "{by}, {day}: {words}"
_NEVER: Final = "No card was printed here yet"
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
    """A card that is not as it should be: what was printed, what it would be now, what an engineer said of it."""

    home: Home
    printed: Printed
    now: str | None
    job: Job | None = None

    @property
    def mark(self) -> str:
        return f"{self.home.key}:{self.printed.size}:{self.now}"

    @property
    def why(self) -> str:
        if self.now is None:
            return _REFUSED
        if self.now == self.printed.fingerprint and self.printed.key == self.home.key:
            return ""
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
        return _pdf(made.pdf, f"changed-cards-{size}.pdf")

    def mark_changed(self, visit: Visit) -> Response:
        """Mark the cards that the page showed, as they were when it showed them."""
        self._mark(visit, _marks(visit.form.get("cards", "")))
        return RedirectResponse(f"{ROOM}/cards", 303)

    def of_home(self, visit: Visit) -> Response:
        return answer(self._one(visit, ""))

    def print_one(self, visit: Visit) -> Response:
        home, size = self._home(visit), self._size(visit)
        made = self.press.printed([home], size, bool(visit.form.get("sheet")))
        if made.pdf is None:
            return answer(self._one(visit, "The card was not made.", made), 422)
        return _pdf(made.pdf, f"card-{home.key}-{size}.pdf")

    def mark_one(self, visit: Visit) -> Response:
        home, size = self._home(visit), self._size(visit)
        now = self.press.fingerprint(home, size)
        if now is None:
            return answer(self._one(visit, "There is no card to mark: it may not be printed."), 422)
        self._mark(visit, [(home.key, size, now)])
        return RedirectResponse(home_address(home.key, "card"), 303)

    def _mark(self, visit: Visit, cards: Sequence[tuple[str, str, str]]) -> None:
        when = self.room.site.now()
        printed = (Printed(key, size, print, when) for key, size, print in cards if size in self.press.sizes)
        self.room.site.store.register.printed(printed, visit.who.name)

    def _all_changed(self) -> Iterator[_Changed]:
        """Cards that would not be printed as they were, and those that an engineer found wrong."""
        said = self.room.site.store.jobs.cards()
        for home, printed in self.room.site.store.register.cards():
            if printed.size not in self.press.sizes:
                continue
            now, job = self.press.fingerprint(home, printed.size), said.get(home.key)
            if now != printed.fingerprint or printed.key != home.key or job is not None:
                yield _Changed(home, printed, now, job)

    def _never_printed(self, found: Sequence[_Changed]) -> Iterator[ChangedCard]:
        """Homes of which an engineer said so, and for which no card of ours was printed."""
        there = {each.home.key for each in found}
        for key, job in self.room.site.store.jobs.cards().items():
            home = self.room.site.store.home(key) if key not in there else None
            if isinstance(home, Home):
                yield ChangedCard(home.appliance, home_address(key), key, _NEVER, "", self._said(job))

    def _said(self, job: Job | None) -> str:
        if job is None or job.closed is None:
            return ""
        on = job.closed.at.astimezone(self.room.site.firm.clock).date()
        return _BY_JOB.format(by=job.closed.by, day=day(on), words=job.closed.card_words)

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
        shown = (*(_shown(each, self._said(each.job)) for each in found), *self._never_printed(found))
        return CardsPage(self.room.frame(visit), alert, shown, sizes, SIZES, self.press.most)

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


def _shown(card: _Changed, said: str) -> ChangedCard:
    printed = f"{SIZES[card.printed.size]}, {day(card.printed.when.date())}"
    return ChangedCard(card.home.appliance, home_address(card.home.key), card.home.key, printed, card.why, said)


def _marks(sent: str) -> Sequence[tuple[str, str, str]]:
    found = (_MARK.fullmatch(each) for each in sent.split())
    return [(each[1], each[2], each[3]) for each in found if each and keys.tidy(each[1]) == each[1]]


def _pdf(body: bytes, name: str) -> Response:
    headers = {
        **SECURITY,
        "cache-control": PRIVATE,
        "content-disposition": f'attachment; filename="{name}"',
    }
    return Response(body, headers=headers, media_type="application/pdf")

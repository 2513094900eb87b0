"""A home's card as PDF, and all cards that are no longer as they were printed.

A card counts as printed once somebody says so: a PDF that never reached paper leaves the list as it was.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields
from functools import partial
from typing import Final, cast

from starlette.responses import RedirectResponse, Response

from kb import keys
from kb.card import Size
from kb.days import full_day
from kb.home import Home
from kb.visit.job import Job
from server.cards import Changed, changed_cards
from server.office.list_pages import CardsPage, ChangedCard, HomeCardPage
from server.office.press import Press, press_for
from server.office.room import ROOM, Room, Ways, home_address, title_of
from server.preview import SIZES, Around, Way, card_page, card_response
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
_FORMS: Final = {
    "home.places.": "places",
    "home.facts.": "facts",
    "home.range": "appliances",
    "home.appliance": "appliances",
}
NONE_PRINTED: Final = "No card could be printed."


def add(ways: Ways, room: Room) -> None:
    """The pages of cards."""
    cards = _Cards(room, press_for(room.site))
    ways.shows(f"{ROOM}/cards", cards.changed)
    ways.does(f"{ROOM}/cards", cards.print_changed)
    ways.does(f"{ROOM}/cards/printed", cards.mark_changed)
    ways.shows(home_address("{key}", "card"), cards.of_home)
    ways.shows(home_address("{key}", "card", "{what}"), cards.of_size)
    ways.does(home_address("{key}", "card", "printed"), cards.mark_one)


@dataclass(frozen=True, slots=True)
class _Cards:
    room: Room
    press: Press

    def changed(self, visit: Visit) -> Response:
        return answer(self._list(visit, ""))

    def print_changed(self, visit: Visit) -> Response:
        size = self._size(visit)
        homes = [each.home for each in changed_cards(self.room.site) if each.now and each.printed.size == size]
        made = self.press.printed(homes[: self.press.most], size, bool(visit.form.get("sheet")))
        if made is None:
            return answer(self._list(visit, NONE_PRINTED), 422)
        return pdf(made, f"changed-cards-{size}.pdf")

    def mark_changed(self, visit: Visit) -> Response:
        """Mark the cards that the page showed, as they were when it showed them."""
        marked(self.room, self.press, visit)
        return RedirectResponse(f"{ROOM}/cards", 303)

    def of_home(self, visit: Visit) -> Response:
        return self._shown(visit, "a6")

    def of_size(self, visit: Visit) -> Response:
        """A size's page, a picture, or the PDF."""
        what = visit.request.path_params["what"]
        if what in self.press.sizes:
            return self._shown(visit, what)
        home = self._home(visit)
        return card_response(self.room.site, home, what, lambda: self._around(visit))

    def mark_one(self, visit: Visit) -> Response:
        home, size = self._home(visit), self._size(visit)
        now = self.press.fingerprint(home, size)
        if now is None:
            return self._shown(visit, size, "There is no card to mark: it may not be printed.")
        _mark(self.room, self.press, visit, [(home.key, size, now)])
        return RedirectResponse(home_address(home.key, "card", size), 303)

    def _never_printed(self, found: Sequence[Changed]) -> Iterator[ChangedCard]:
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
        return _BY_JOB.format(by=job.closed.by, day=full_day(on), words=job.closed.card_words)

    def _list(self, visit: Visit, alert: str) -> CardsPage:
        found = tuple(changed_cards(self.room.site))
        by_size = {
            size: [each for each in found if each.printed.size == size and each.now] for size in self.press.sizes
        }
        sizes = tuple(
            (size, " ".join(_named(each) for each in cards[: self.press.most]), len(cards))
            for size, cards in by_size.items()
            if cards
        )
        shown = (*(_shown(each, self._said(each.job)) for each in found), *self._never_printed(found))
        return CardsPage(self.room.frame(visit), alert, shown, sizes, SIZES, self.press.most)

    def _shown(self, visit: Visit, size: str, alert: str = "") -> Response:
        """A home's card with the ways to print it and mark it, and what was printed so far."""
        home = self._home(visit)
        card = card_page(self.room.site, home, cast("Size", size), self._around(visit))
        printed = self.room.site.store.lists.printed_of(home.key)
        shown = {each.name: getattr(card, each.name) for each in fields(card)}
        page = HomeCardPage(
            **shown,
            alert=alert,
            code=size,
            action=home_address(home.key, "card", "printed"),
            printed=tuple(f"{SIZES.get(each.size, each.size)}: {full_day(each.when.date())}" for each in printed),
        )
        return answer(page, 422 if card.wrong else 200)

    def _around(self, visit: Visit) -> Around:
        record = self.room.record(visit)
        here = home_address(record.key)
        back = Way("Back to the home", here)
        return Around(self.room.frame(visit), title_of(record), f"{here}/card", back, partial(_mended, here))

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


def _mended(home: str, field: str) -> str:
    """Where a field of the home is changed; the firm's own files are changed on the machine."""
    forms = (form for begin, form in _FORMS.items() if field.startswith(begin))
    form = "appliances" if field == "range" else next(forms, "")
    return f"{home}/{form}" if form else ""


def _named(card: Changed) -> str:
    return f"{card.home.key}:{card.printed.size}:{card.now}"


def _why(card: Changed) -> str:
    if card.now is None:
        return _REFUSED
    if card.is_as_printed:
        return ""
    return _NEW_KEY if card.printed.key != card.home.key else _OTHER_WORDS


def _shown(card: Changed, said: str) -> ChangedCard:
    printed = f"{SIZES[card.printed.size]}, {full_day(card.printed.when.date())}"
    return ChangedCard(card.home.appliance, home_address(card.home.key), card.home.key, printed, _why(card), said)


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

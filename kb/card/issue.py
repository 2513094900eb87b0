"""May this home have its card, and is everything on it that there is room for?"""

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from functools import lru_cache
from typing import Final

from kb import firm as firms
from kb.appliance import Range
from kb.card.fit import fitted
from kb.card.gather import gathered
from kb.card.press import press
from kb.card.value import Card, Reason, Refused, Setting
from kb.facts import GaugeMarks
from kb.home import Home
from kb.library import Library
from kb.region import Region

_FIGURE: Final = re.compile(r"\d+(?:\.\d+)?")
_HAIR_MM: Final = 0.15


def card_of(
    home: Home, range: Range, firm: firms.Firm, region: Region, library: Library, today: date | None = None
) -> Card | Refused:
    """The card of a home, known to fit, or every reason why it cannot be printed.

    Where room is short the places give way, the least needed first.
    `today` is the day in the firm's own zone unless another is given.
    Raises CardError if this machine cannot print at all.
    """
    card = gathered(home, range, firm, region, library, today)
    if isinstance(card, Refused):
        return card
    full = _fitted(card)
    if isinstance(full, Card):
        return full
    for fewer in _with_fewer_places(card):
        fit = _fitted(fewer)
        if isinstance(fit, Card):
            return fit
    return Refused(full)


def _fitted(card: Card) -> Card | tuple[Reason, ...]:
    unlettered = tuple(_unlettered(card))
    if unlettered:
        return unlettered
    guess = _silhouette_fitted(_silhouette(card))
    if isinstance(guess, Card):
        sized = replace(card, front=_eased(guess.front), back=_eased(guess.back))
        if press().sits(sized):
            return sized
    return fitted(card, press())


# The cards of a firm are much alike: sizes found for one of about these lengths mostly fit the next at once, and
# the printed card itself then says whether they do.
@lru_cache(maxsize=256)
def _silhouette_fitted(card: Card) -> Card | tuple[Reason, ...]:
    return fitted(card, press())


def _silhouette(card: Card) -> Card:
    """The card with stand-ins for what differs from home to home, each at least about as wide as the words."""
    site, key = card.page_typed
    widest = "".join(sign if sign == "-" else "W" for sign in key)
    return replace(
        card,
        title="-",
        marks=card.marks and GaugeMarks(),
        gauge=replace(card.gauge, title=_FIGURE.sub("0.00", card.gauge.title)),
        page=card.page.replace(key, widest),
        page_typed=(site, widest),
        places=tuple(replace(spot, where=_stand_in(spot.where)) for spot in card.places),
        foot=tuple(_stand_in(line) for line in card.foot),
    )


def _eased(setting: Setting) -> Setting:
    """The setting with its parts a hair closer, since stand-ins come out a hair shorter at times."""
    return replace(setting, between=max(0.0, setting.between - _HAIR_MM))


def _stand_in(words: str) -> str:
    return ("nnnnnnn " * (len(words) // 8 + 1)).strip()


def _unlettered(card: Card) -> Iterator[Reason]:
    for field, text in card.texts():
        lacking = press().lacks(text)
        if lacking:
            found = f"The typeface of the card has no letters for {lacking!r}."
            yield Reason(field, found, "Write it in Latin letters.")


def _with_fewer_places(card: Card) -> Iterator[Card]:
    for count in (3, 2, 1, 0):
        if count < len(card.places):
            yield replace(card, places=card.places[:count])

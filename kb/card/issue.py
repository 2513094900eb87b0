"""May this home have its card, and is everything on it that there is room for?"""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

from kb import firm as firms
from kb.appliance import Range
from kb.card.fit import fitted
from kb.card.gather import gathered
from kb.card.press import press
from kb.card.value import Card, Reason, Refused
from kb.home import Home
from kb.library import Library
from kb.region import Region


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
    return tuple(_unlettered(card)) or fitted(card, press())


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

"""May this home have its card, and is everything on it that there is room for?"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date
from functools import lru_cache
from typing import Final

from kb import firm as firms
from kb.appliance import Range
from kb.card.fit import Misfit, fitted, reasons_for
from kb.card.gather import A6_PLAIN, gathered
from kb.card.press import press
from kb.card.priority import as_much_as, lessened
from kb.card.sizes import FORMATS, SLACK_MM, Side
from kb.card.value import Card, Reason, Refused, Setting, Spot, Style
from kb.facts import GaugeMarks
from kb.home import Home
from kb.library import Library
from kb.region import Region

_FIGURE: Final = re.compile(r"\d+(?:\.\d+)?")
_HAIR_MM: Final = 0.15
_ROOMY: Final = 0.05


def card_of(
    home: Home,
    range: Range,
    firm: firms.Firm,
    region: Region,
    library: Library,
    today: date | None = None,
    style: Style = A6_PLAIN,
) -> Card | Refused:
    """The card of a home, known to fit, or every reason why it cannot be printed.

    Where room is short parts give way, the least needed first.
    `today` is the day in the firm's own zone unless another is given.
    Raises CardError if this machine cannot print at all.
    """
    card = gathered(home, range, firm, region, library, today, style)
    if isinstance(card, Refused):
        return card
    guess = guessed(card)
    if isinstance(guess, Refused) or settles(guess, card, press().left(guess)):
        return guess
    return surely_fitted(card)


def guessed(card: Card) -> Card | Refused:
    """The card at sizes at which one much like it fits, or at its own first sizes if there is no such card.

    Refused for letters that cannot be printed. Only the printed card says whether it fits.
    """
    unlettered = tuple(_unlettered(card))
    if unlettered:
        return Refused(unlettered)
    model = _model(_silhouette(card))
    if isinstance(model, Refused):
        return card
    return replace(as_much_as(card, model), front=_eased(model.front), back=_eased(model.back))


def settles(guess: Card, whole: Card, left: Mapping[Side, float]) -> bool:
    """Whether a guess fits, and does not leave so much room that more or larger words might have had a place."""
    format = FORMATS[guess.size]
    if any(room < -SLACK_MM for room in left.values()):
        return False
    roomy = {side for side, room in left.items() if room > format.page[1] * _ROOMY}
    sizes = {"front": guess.front.size, "back": guess.back.size}
    lost = replace(whole, front=guess.front, back=guess.back) != guess
    return not any(lost or sizes[side] < format.sides[side].first for side in roomy)


def surely_fitted(card: Card) -> Card | Refused:
    """The card as it fits when it is tried itself, or every reason why it does not while it was whole."""
    whole: Misfit | None = None
    while isinstance(fit := fitted(card, press()), Misfit):
        whole = whole or fit
        # A line that is too wide stays so however much else is left out.
        fewer = None if fit.trial.too_wide else _lessened(card, fit.trial.overfull())
        if fewer is None:
            return Refused(reasons_for(whole, press()))
        card = fewer
    return fit


def _lessened(card: Card, sides: tuple[Side, ...]) -> Card | None:
    for side in sides:
        fewer = lessened(card, side)
        if fewer is None:
            return None
        card = fewer
    return card


# The cards of a firm are much alike: sizes found for one of about these lengths mostly fit the next at once, and
# the printed card itself then says whether they do.
@lru_cache(maxsize=1024)
def _model(silhouette: Card) -> Card | Refused:
    return surely_fitted(silhouette)


def _silhouette(card: Card) -> Card:
    """The card with stand-ins for what differs from home to home, each at least about as long as the words.

    It matters for the room they take on how many lines they come, and of the places not which one has how many.
    """
    site, key = card.page_typed
    widest = "".join(sign if sign == "-" else "W" for sign in key)
    line = FORMATS[card.size].line
    lines = sorted((len(spot.where) // line for spot in card.places), reverse=True)
    return replace(
        card,
        title="-",
        marks=card.marks and GaugeMarks(),
        gauge=replace(card.gauge, title=_FIGURE.sub("0.00", card.gauge.title)),
        page=card.page.replace(key, widest),
        page_typed=(site, widest),
        places=tuple(Spot("", "WWWW", "\n".join("n" * (many + 1))) for many in lines),
        foot=tuple(_stand_in(words) for words in card.foot),
    )


def _eased(setting: Setting) -> Setting:
    """The setting with its parts a hair closer, since stand-ins come out a hair shorter at times."""
    return replace(setting, between=max(0.0, setting.between - _HAIR_MM))


def _stand_in(words: str) -> str:
    return ("nnnnnnn " * 2 * (len(words) // 16 + 1)).strip()


def _unlettered(card: Card) -> Iterator[Reason]:
    for field, text in card.texts():
        lacking = press().lacks(text)
        if lacking:
            found = f"The typeface of the card has no letters for {lacking!r}."
            yield Reason(field, found, "Write it in Latin letters.")

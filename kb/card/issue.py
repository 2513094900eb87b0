"""May this home have its card, and is everything on it that there is room for?"""

import re
from bisect import bisect_left
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache, partial
from typing import Final

from kb import firm as firms
from kb.appliance import Range
from kb.card import words
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
    if isinstance(guess, Refused):
        return guess
    return guess.card if guess.holds(press().left(guess.card)) else surely_fitted(card)


@dataclass(frozen=True, slots=True)
class Guess:
    """A card at sizes at which one much like it fits, and how much room that one leaves on each side.

    `left` is None where there is no such card.
    """

    card: Card
    left: Mapping[Side, float] | None

    def holds(self, left: Mapping[Side, float]) -> bool:
        """Whether the printed card fits, and does not leave so much more room that it should be set otherwise."""
        if self.left is None or any(room < -SLACK_MM for room in left.values()):
            return False
        much = FORMATS[self.card.size].page[1] * _ROOMY
        return all(room - self.left[side] < much for side, room in left.items())


def guessed(card: Card) -> Guess | Refused:
    """The card at the sizes of one much like it; only the printed card says whether it fits.

    Refused for letters that cannot be printed.
    """
    unlettered = tuple(_unlettered(card))
    if unlettered:
        return Refused(unlettered)
    model = _model(_silhouette(card))
    if model is None:
        return Guess(card, None)
    sized = replace(as_much_as(card, model.card), front=model.card.front, back=model.card.back)
    return Guess(sized, model.left)


def surely_fitted(card: Card) -> Card | Refused:
    """The card as it fits when it is tried itself, or every reason why it does not, however much gives way."""
    fit = fitted(card, press())
    if isinstance(fit, Misfit) and fit.trial.overfull():
        fewer, hopeless = _lessened(fit)
        if hopeless:
            return Refused(reasons_for(fit, press(), hopeless))
        fit = fitted(replace(fewer, front=card.front, back=card.back), press())
    return Refused(reasons_for(fit, press(), fit.trial.overfull())) if isinstance(fit, Misfit) else fit


def _lessened(misfit: Misfit) -> tuple[Card, tuple[Side, ...]]:
    """The card with as little left out as makes each side fit, and the sides that never do."""
    card, hopeless = misfit.card, []
    for side in misfit.trial.overfull():
        fewer = lessened(card, side)
        place = bisect_left(fewer, True, key=partial(_fits_on, side))
        if place == len(fewer):
            hopeless.append(side)
        else:
            card = fewer[place]
    return card, tuple(hopeless)


def _fits_on(side: Side, card: Card) -> bool:
    return not press().tried(card, (side,)).overfull()


# The cards of a firm are much alike: sizes found for one of about these lengths mostly fit the next at once, and
# the printed card itself then says whether they do.
@lru_cache(maxsize=1024)
def _model(silhouette: Card) -> Guess | None:
    fit = surely_fitted(silhouette)
    if isinstance(fit, Refused):
        return None
    eased = replace(fit, front=_eased(fit.front), back=_eased(fit.back))
    return Guess(eased, press().left(eased))


def _silhouette(card: Card) -> Card:
    """The card with stand-ins for what differs from home to home, each at least about as long as the words.

    It matters for the room they take on how many lines they come, and of the places not which one has how many.
    """
    site, key = card.page_typed
    widest = "".join(sign if sign == "-" else "W" for sign in key)
    line = FORMATS[card.size].line
    lines = sorted(((len(spot.where) - 1) // line for spot in card.places), reverse=True)
    return replace(
        card,
        title="-",
        marks=card.marks and GaugeMarks(),
        gauge=replace(card.gauge, title=_FIGURE.sub("0.00", card.gauge.title)),
        page=card.page.replace(key, widest),
        page_typed=(site, widest),
        places=tuple(Spot("", "WWWW", "\n".join("n" * (many + 1))) for many in lines),
        foot=tuple(_stand_ins(card)),
    )


def _stand_ins(card: Card) -> Iterator[str]:
    """The foot with the longest date there is, and as many letters as the appliance has, or some more."""
    for place, line in enumerate(card.foot):
        if place == 1 and line != words.NO_SERVICE:
            yield words.SERVICE.format(day=28, month="September", year=2000)
        elif place == 2:
            yield ("nnnnnnn " * 2 * (len(line) // 16 + 1)).strip()
        else:
            yield line


def _eased(setting: Setting) -> Setting:
    """The setting with its parts a hair closer, since stand-ins come out a hair shorter at times."""
    return replace(setting, between=max(0.0, setting.between - _HAIR_MM))


def _unlettered(card: Card) -> Iterator[Reason]:
    for field, text in card.texts():
        lacking = press().lacks(text)
        if lacking:
            found = f"The typeface of the card has no letters for {lacking!r}."
            yield Reason(field, found, "Write it in Latin letters.")

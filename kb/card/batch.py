"""How do many cards of one firm become one PDF, at a fraction of the time of as many single ones?"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from kb.card.issue import Guess, guessed, surely_fitted
from kb.card.press import press
from kb.card.sizes import Side
from kb.card.value import Card, Refused


@dataclass(frozen=True, slots=True)
class Batch:
    """A PDF of the cards that could be printed, none if there is not one, and the refused by their place in the row."""

    pdf: bytes | None
    refused: Mapping[int, Refused]


def together(gathered: Sequence[Card | Refused], sheets: bool = False) -> Batch:
    """Cards as they were gathered, in one PDF, each as it would be alone.

    All must be of one firm and one size.
    Raises CardError.
    """
    whole = {n: card for n, card in enumerate(gathered) if isinstance(card, Card)}
    guesses = {n: guessed(card) for n, card in whole.items()}
    fits = {n: guess.card if isinstance(guess, Guess) else guess for n, guess in guesses.items()}
    printed = _printed(fits, sheets)
    wrong = [n for n, left in printed.left.items() if not _holds(guesses[n], left)]
    if wrong:
        fits |= {n: surely_fitted(whole[n]) for n in wrong}
        printed = _printed(fits, sheets)
    found = {n: fits.get(n, each) for n, each in enumerate(gathered)}
    return Batch(printed.pdf, {n: each for n, each in found.items() if isinstance(each, Refused)})


@dataclass(frozen=True, slots=True)
class _Printed:
    pdf: bytes | None
    left: Mapping[int, Mapping[Side, float]]


def _printed(fits: Mapping[int, Card | Refused], sheets: bool) -> _Printed:
    cards = {n: card for n, card in fits.items() if isinstance(card, Card)}
    if not cards:
        return _Printed(None, {})
    printed = press().printed(tuple(cards.values()), sheets)
    return _Printed(printed.pdf, dict(zip(cards, printed.left, strict=True)))


def _holds(guess: Guess | Refused, left: Mapping[Side, float]) -> bool:
    return isinstance(guess, Guess) and guess.holds(left)

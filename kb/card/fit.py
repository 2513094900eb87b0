"""At which sizes does a card fit, and which texts are too long if it fits at none?"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from math import floor
from typing import Final, Protocol

from kb.card.sizes import BOTH, FORMATS, SLACK_MM, STEP_PT, Side
from kb.card.value import Card, Reason, Setting

_GROWING: Final = 0.4


@dataclass(frozen=True, slots=True)
class Reach:
    """How far down a side reaches, in millimetres, of how much room, in how many parts."""

    reach: float
    room: float
    parts: int

    @property
    def over(self) -> float:
        """By how much the side is too long, or 0."""
        return self.reach - self.room if self.reach > self.room + SLACK_MM else 0.0

    def between(self, most: float) -> float:
        """How much of the room that is left comes between each two parts, at most so much."""
        return max(0.0, min(most, (self.room - self.reach) / max(1, self.parts - 1)))


@dataclass(frozen=True, slots=True)
class Trial:
    """How a card came out at its sizes, its parts as close as they may be.

    `too_wide` names the lines that do not fit their width at the smallest size, with their words.
    """

    sides: Mapping[Side, Reach]
    too_wide: Mapping[str, str]

    def then(self, later: "Trial") -> "Trial":
        """What is known after some sides were tried again."""
        return Trial({**self.sides, **later.sides}, {**self.too_wide, **later.too_wide})

    def overfull(self) -> tuple[Side, ...]:
        """The sides that reach beyond the page."""
        return tuple(side for side, reach in self.sides.items() if reach.over)


@dataclass(frozen=True, slots=True)
class Misfit:
    """A card that does not fit at its smallest sizes, and how it came out at them."""

    card: Card
    trial: Trial


class Layouter(Protocol):
    """Whoever can lay out a card and look at the result."""

    def tried(self, card: Card, sides: tuple[Side, ...] = BOTH) -> Trial:
        """How these sides of the card come out at their sizes."""
        ...

    def heights(self, card: Card) -> Mapping[str, float]:
        """The height of each part of both sides, in millimetres, at the card's sizes."""
        ...


def fitted(card: Card, layouter: Layouter) -> Card | Misfit:
    """The card at sizes at which everything fits, or how it came out at the smallest ones."""
    trial = layouter.tried(card)
    while trial.overfull() and (smaller := _smaller(card, trial)) != card:
        card, trial = smaller, trial.then(layouter.tried(smaller, trial.overfull()))
    if trial.too_wide or trial.overfull():
        return Misfit(card, trial)
    return _spread(*_larger(card, trial, layouter))


def reasons_for(misfit: Misfit, layouter: Layouter, sides: tuple[Side, ...]) -> tuple[Reason, ...]:
    """Every line that is too wide at the smallest sizes, and every text that makes these sides too long."""
    return (*_too_wide(misfit.card, misfit.trial), *_too_tall(misfit, sides, layouter))


def _smaller(card: Card, trial: Trial) -> Card:
    """The card at the next sizes to try, the sides that are too long set smaller."""
    for side in trial.overfull():
        size, sizing = _setting(card, side).size, FORMATS[card.size].sides[side]
        next_size = min(_guess(size, trial.sides[side], sizing.shrinking), size - STEP_PT)
        card = _set(card, side, Setting(max(sizing.least, next_size)))
    return card


def _larger(card: Card, trial: Trial, layouter: Layouter) -> tuple[Card, Trial]:
    """The card with a side that has room to spare set larger, if that fits at once, and how it came out."""
    for side, came_out in trial.sides.items():
        size = _setting(card, side).size
        larger = min(FORMATS[card.size].sides[side].most, _guess(size, came_out, _GROWING))
        if size == FORMATS[card.size].sides[side].first and larger > size:
            grown = _set(card, side, Setting(larger))
            again = layouter.tried(grown, (side,))
            card, trial = (card, trial) if again.overfull() else (grown, trial.then(again))
    return card, trial


def _guess(size: float, came_out: Reach, power: float) -> float:
    """The size, a whole number of steps, at which a side that came out so will about fill its room."""
    factor: float = (came_out.room / came_out.reach) ** power
    return floor(size * factor / STEP_PT) * STEP_PT


def _spread(card: Card, trial: Trial) -> Card:
    """The card with the room that is left laid between the parts of each side."""
    most = FORMATS[card.size].most_between
    for side, reach in trial.sides.items():
        card = _set(card, side, Setting(_setting(card, side).size, reach.between(most)))
    return card


def _setting(card: Card, side: Side) -> Setting:
    return card.front if side == "front" else card.back


def _set(card: Card, side: Side, setting: Setting) -> Card:
    return replace(card, front=setting) if side == "front" else replace(card, back=setting)


_ONE_LINE: Final[Mapping[str, tuple[str, str]]] = {
    "danger-title": ("words.DANGER", "Shorten the heading of the danger panel."),
    "emergency": ("firm.emergency", "Write the emergency numbers without anything but the numbers."),
    "firm": ("firm.name", "Give the firm a shorter name in its file."),
    "phone": ("firm.phones", "Write the first phone without anything but its number."),
    "address": ("firm.site", "Serve the site under a shorter address."),
}


def _too_wide(card: Card, trial: Trial) -> Iterator[Reason]:
    for line, words in trial.too_wide.items():
        field, remedy = _ONE_LINE[line]
        many = "two lines" if line == "firm" else "one line"
        smallest = FORMATS[card.size].lines[line][1]
        yield Reason(field, f"{words!r} does not fit on {many} at {smallest:g} pt.", remedy)


def _too_tall(misfit: Misfit, sides: tuple[Side, ...], layouter: Layouter) -> Iterator[Reason]:
    card, trial = misfit.card, misfit.trial
    heights = layouter.heights(card) if sides else {}
    for side in sides:
        parts = {part: height for part, height in heights.items() if part.startswith("front:") == (side == "front")}
        for part in _longest(parts, FORMATS[card.size].shares):
            over, takes = trial.sides[side].over, parts[part]
            found = (
                f"The {side} of the card is {over:.1f} mm too long; {_called(part, card)} takes {takes:.0f} mm of it."
            )
            yield Reason(_field(part, card), found, "Shorten it.")


def _longest(heights: Mapping[str, float], shares: Mapping[str, float]) -> list[str]:
    """The parts that take more than their share, or the two longest if each keeps to it."""
    greedy = [part for part, height in heights.items() if height > shares[part.split(":")[0]]]
    return greedy or sorted(heights, key=lambda part: heights[part], reverse=True)[:2]


def _field(part: str, card: Card) -> str:
    kind, _, which = part.partition(":")
    match kind:
        case "fault":
            return f"articles: {card.faults[int(which)].article}, On the card"
        case "place":
            return f"home.places.{card.places[int(which)].id}"
        case "front" | "back":
            return {"danger": "region.orders.gas-smell", "firm": "firm.hours", "home": "firm.site"}[which]
    return {"reset": "range.reset", "never": "words.NEVER"}[kind]


def _called(part: str, card: Card) -> str:
    kind, _, which = part.partition(":")
    match kind:
        case "fault":
            return repr(card.faults[int(which)].title)
        case "place":
            return repr(card.places[int(which)].where)
        case "front" | "back":
            return {"danger": "the danger panel", "firm": "whom to call", "home": "the home's page"}[which]
    return repr({"reset": card.reset, "never": card.never}[kind].title)

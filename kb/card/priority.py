"""What does each size of card carry, and what gives way first where room is short?

Nothing is ever cut: a part stands on the card whole, or not at all.
Never giving way: the danger panel with its numbers, the firm with its first phone, the QR code and the key.
"""

from collections.abc import Mapping
from dataclasses import replace
from typing import Final, Literal, TypeAlias

from kb.card.sizes import Side, Size
from kb.card.value import Card, Rule

Part: TypeAlias = Literal["faults", "places", "foot", "gauge", "hours", "also"]

_NOTHING: Final = Rule("", ())

_LOSING: Final[Mapping[tuple[Size, Side], tuple[tuple[Part, int], ...]]] = {
    ("a6", "back"): (("places", 3), ("places", 2), ("places", 1), ("places", 0)),
    ("a5", "front"): (("hours", 0), ("also", 1), ("also", 0)),
    ("a5", "back"): (
        ("faults", 2),
        ("places", 3),
        ("faults", 1),
        ("places", 2),
        ("foot", 1),
        ("faults", 0),
        ("places", 1),
        ("places", 0),
    ),
    ("id1", "back"): (("foot", 1), ("foot", 0), ("gauge", 0), ("hours", 0), ("also", 1), ("also", 0)),
}
"""What gives way on each side of each size, the least needed first, and down to how many of it."""


def carries(size: Size, part: Part) -> bool:
    """Whether cards of a size have this part at all."""
    return size != "id1" or part not in ("faults", "places")


def carried(card: Card) -> Card:
    """The card with nothing but what its size carries.

    The smallest one leaves faults, rules and places to the home's page, which its code opens; what must never be
    left out stands on it, and if there is room how the home's water should stand and when its service is due.
    """
    if card.size != "id1":
        return card
    return replace(card, faults=(), places=(), reset=_NOTHING, never=_NOTHING, foot=card.foot[:2])


def lessened(card: Card, side: Side) -> tuple[Card, ...]:
    """The card with less and less on a side, the least needed left out first; none if it has nothing to lose."""
    fewer = []
    for part, keep in _LOSING.get((card.size, side), ()):
        less = _without(card, part, keep)
        if less != card:
            fewer.append(less)
        card = less
    return tuple(fewer)


def as_much_as(card: Card, model: Card) -> Card:
    """The card with as much left out as another of its size."""
    firm = replace(
        card.firm, hours=card.firm.hours[: len(model.firm.hours)], also=card.firm.also[: len(model.firm.also)]
    )
    return replace(
        card,
        faults=card.faults[: len(model.faults)],
        places=card.places[: len(model.places)],
        foot=card.foot[: len(model.foot)],
        gauge=card.gauge if model.gauge.title else _NOTHING,
        firm=firm,
    )


def _without(card: Card, part: Part, keep: int) -> Card:
    match part:
        case "faults":
            return replace(card, faults=card.faults[:keep])
        case "places":
            return replace(card, places=card.places[:keep])
        case "foot":
            return replace(card, foot=card.foot[:keep])
        case "gauge":
            return replace(card, gauge=_NOTHING)
        case "hours":
            return replace(card, firm=replace(card.firm, hours=card.firm.hours[:keep]))
        case "also":
            return replace(card, firm=replace(card.firm, also=card.firm.also[:keep]))


def left_out(whole: Card, card: Card) -> tuple[str, ...]:
    """What gave way on a card, in its own words, given the card as it was gathered for its size."""
    rows = (
        (tuple(fault.title for fault in each.faults),
         tuple(f"{spot.label}: {spot.where}" for spot in each.places),
         (each.gauge.title,) if each.gauge.title else (),
         each.firm.also, each.firm.hours, each.foot)
        for each in (whole, card)
    )  # fmt: skip
    return tuple(words for had, has in zip(*rows, strict=True) for words in had[len(has) :])

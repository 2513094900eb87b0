"""Which sizes, colours and words does the card's template lay out, and what does it say when they do not fit?"""

import json
from collections.abc import Iterator, Mapping
from dataclasses import asdict
from pathlib import Path
from typing import Any, Final

from kb.card import gauge, palette, qr, words
from kb.card.value import Card, Reason

TEMPLATE: Final = Path(__file__).with_name("card.typ")
"""The layout itself; it holds no words, no colours and no sizes of its own."""

FAMILY: Final = "Atkinson Hyperlegible"

PAGE_MM: Final = (105, 148)
"""A6 upright (ISO 216)."""

SMALLEST_PT: Final = 7.5
"""No letter on the card is smaller."""

SIZES: Final[Mapping[str, tuple[float, float]]] = {
    "front": (10.0, 8.5),
    "back": (10.0, 8.5),
    "danger-title": (14.0, 11.0),
    "emergency": (22.0, 17.0),
    "firm": (15.0, 11.0),
    "phone": (30.0, 20.0),
    "address": (10.5, 8.5),
}
"""The size of each kind of text in points: the one to begin with, and the smallest one allowed."""

CAPTION_PT: Final = 8.0
"""The size of what only names something else."""

GAUGE_MM: Final = 48.0
"""How wide the gauge is drawn: its smallest letters are then over the smallest size."""

_ONE_LINE: Final[Mapping[str, tuple[str, str]]] = {
    "danger-title": ("words.DANGER", "Shorten the heading of the danger panel."),
    "emergency": ("firm.emergency", "Write the emergency numbers without anything but the numbers."),
    "firm": ("firm.name", "Give the firm's file a shorter name for its cards."),
    "phone": ("firm.phones", "Write the first phone without anything but its number."),
    "address": ("firm.site", "Serve the site under a shorter address."),
}

_SHARE_MM: Final[Mapping[str, float]] = {"front": 40.0, "fault": 17.0, "reset": 24.0, "never": 28.0, "place": 9.0}


def inputs(card: Card, sides: str = "front back") -> dict[str, str]:
    """What the template is given: the card's words as JSON, and its two drawings as SVG."""
    sizes = {name: {"most": most, "least": least} for name, (most, least) in SIZES.items()}
    look = {
        "family": FAMILY,
        "page": PAGE_MM,
        "caption": CAPTION_PT,
        "gauge": GAUGE_MM,
        "qr": qr.SIDE_MM,
        "quiet": _quiet_mm(card),
    }
    colours = {name.lower(): value for name, value in vars(palette).items() if str(value).startswith("#")}
    return {
        "sides": sides,
        "look": json.dumps({**look, "sizes": sizes, "colours": colours}),
        "card": json.dumps({**asdict(card), **_alternatives(card)}),
        "gauge": gauge.drawn(card.marks) if card.marks else "",
        "qr": qr.drawn(card.page),
    }


def _quiet_mm(card: Card) -> float:
    return qr.QUIET_ZONE * qr.module_mm(card.page)


def _alternatives(card: Card) -> dict[str, Any]:
    """The pictures in words, for whoever hears the card read out."""
    marked = f"{gauge.TITLE}. {gauge.described(card.marks)}" if card.marks else ""
    return {"gauge_alt": marked, "qr_alt": words.QR_ALT.format(page=card.page), "type": words.TYPE}


def reasons(overflows: list[dict[str, Any]], card: Card) -> tuple[Reason, ...]:
    """What the template could not fit at the smallest sizes, as reasons that name the texts."""
    return tuple(reason for overflow in overflows for reason in _reasons(overflow, card))


def _reasons(overflow: dict[str, Any], card: Card) -> Iterator[Reason]:
    name = str(overflow["what"])
    if name in _ONE_LINE:
        field, remedy = _ONE_LINE[name]
        yield Reason(field, f"{overflow['text']!r} does not fit on one line in {SIZES[name][1]:g} pt.", remedy)
        return
    heights: dict[str, float] = overflow["heights"]
    too_long = [part for part, height in heights.items() if height > _SHARE_MM[part.split(":")[0]]]
    named = too_long or sorted(heights, key=lambda part: heights[part], reverse=True)[:2]
    for part in named:
        found = f"The {name} of the card is {overflow['over']:.0f} mm too long, and {_called(part, card)} takes "
        yield Reason(_field(part, card), f"{found}{heights[part]:.0f} mm of it.", "Shorten it.")


def _field(part: str, card: Card) -> str:
    kind, _, number = part.partition(":")
    match kind:
        case "fault":
            return f"articles: {card.faults[int(number)].article}, On the card"
        case "place":
            return f"home.places.{card.places[int(number)].id}"
        case "front":
            return {"danger": "region.orders.gas-smell", "firm": "firm.hours", "home": "firm.site"}[number]
    return {"reset": "range.reset", "never": "words.NEVER"}[kind]


def _called(part: str, card: Card) -> str:
    kind, _, number = part.partition(":")
    match kind:
        case "fault":
            return repr(card.faults[int(number)].title)
        case "place":
            return repr(card.places[int(number)].where)
        case "front":
            return {"danger": "the danger panel", "firm": "whom to call", "home": "the home's page"}[number]
    return repr({"reset": card.reset, "never": card.never}[kind].title)

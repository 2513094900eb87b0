"""Which sizes, colours and words does the card's template lay out?"""

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any, Final

from kb.card import dial, gauge, palette, qr, words
from kb.card.value import Card, Side

TEMPLATE: Final = Path(__file__).with_name("card.typ")
"""The layout itself, with its parts beside it; it holds no words, no colours and no sizes of letters of its own."""

FAMILY: Final = "Atkinson Hyperlegible"

BOTH: Final[tuple[Side, ...]] = ("front", "back")

PAGE_MM: Final = (105, 148)
"""A6 upright (ISO 216)."""

SMALLEST_PT: Final = 7.5
"""No letter on the card is smaller."""

SIZES: Final[Mapping[str, tuple[float, float]]] = {
    "danger-title": (14.0, 11.0),
    "emergency": (21.0, 16.0),
    "firm": (15.0, 11.0),
    "phone": (30.0, 20.0),
    "address": (10.5, 8.5),
}
"""The size in points of each line that keeps to one line: the one to begin with, and the smallest one allowed."""

CAPTION_PT: Final = 8.0
"""The size of what only names something else."""

GAUGE_MM: Final = 50.0
"""How wide the gauge is drawn: its smallest letters are then over the smallest size."""


@dataclass(frozen=True, slots=True)
class Sizing:
    """The sizes in points that a side's other words may have, and the one that is tried first.

    `shrinking` is the power of how much too long a side is by which its words are set smaller.
    """

    most: float
    first: float
    least: float
    shrinking: float


SIDES: Final[Mapping[Side, Sizing]] = {"front": Sizing(10.0, 10.0, 8.5, 4.0), "back": Sizing(9.25, 8.5, 8.5, 0.75)}
"""The sizes of each side; the first is the one that most homes' cards come out at, since a trial costs time.

Words that wrap grow with the square of their size, and the pictures on the front do not shrink with its words.
"""

STEP_PT: Final = 0.25
"""By how much a size changes at least."""


def inputs(card: Card, sides: tuple[Side, ...] = BOTH, trial: bool = False, tell: bool = False) -> dict[str, str]:
    """What the template is given: the card's words as JSON, and its two drawings as SVG.

    A trial only says how far the sides would reach; with `tell` it says so of each text.
    """
    return {
        "sides": " ".join(sides),
        "look": json.dumps(_look(card, trial, tell)),
        "card": json.dumps({**asdict(card), **_in_words(card)}),
        **({} if trial else _drawings(card)),
    }


def _drawings(card: Card) -> dict[str, str]:
    return {"gauge": gauge.drawn(card.marks) if card.marks else "", "qr": qr.drawn(card.page)}


def _look(card: Card, trial: bool, tell: bool) -> dict[str, Any]:
    return {
        "family": FAMILY,
        "page": PAGE_MM,
        "caption": CAPTION_PT,
        "front": asdict(card.front),
        "back": asdict(card.back),
        "drawings": {"gauge": (GAUGE_MM, GAUGE_MM * dial.HEIGHT / dial.WIDTH), "qr": (qr.SIDE_MM, qr.SIDE_MM)},
        "quiet": qr.QUIET_ZONE * qr.module_mm(card.page),
        "step": STEP_PT,
        "sizes": {name: {"most": most, "least": least} for name, (most, least) in SIZES.items()},
        "colours": {name.lower(): value for name, value in vars(palette).items() if str(value).startswith("#")},
        "trial": trial,
        "tell": tell,
    }


def _in_words(card: Card) -> dict[str, str]:
    """The words that stand with the card's pictures, or for them when the card is read out."""
    marked = f"{gauge.TITLE}. {gauge.described(card.marks)}" if card.marks else ""
    return {
        "gauge_alt": marked,
        "qr_alt": words.QR_ALT.format(page=card.page),
        "type": words.TYPE,
        "demo_word": words.DEMO_WORD,
    }

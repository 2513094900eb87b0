"""Which colours may stand on a card and on a drawn gauge, and on what?

One ink on plain paper.
The four others are used only where ISO 3864 gives them a meaning: the numbers are the usual screen values of
its colours (RAL 3001, 1003, 6032 and 5005).
"""

from dataclasses import dataclass
from typing import Final

from kb import colour

PAPER: Final = colour.PAPER
"""The card itself."""

INK: Final = "#0F2E33"
"""Every word: a near-black blue-green."""

QUIET: Final = "#3C565B"
"""The same ink, thinner, for what only names something else."""

HAIR: Final = "#AFC0C0"
"""Lines that part one thing from the next and mean nothing by themselves."""

DANGER: Final = "#9B2423"
"""Prohibition and danger."""

WARNING: Final = "#F9A900"
"""Take care."""

SAFE: Final = "#237F52"
"""The safe condition, and the way to it."""

MANDATORY: Final = "#005387"
"""What must be done."""

TEXT: Final = 7.0
"""The least contrast of words, by the formula of WCAG 2.2: level AAA, since a card is read in bad light."""

SHAPE: Final = 3.0
"""The least contrast of a shape that means something (WCAG 2.2, 1.4.11)."""


@dataclass(frozen=True, slots=True)
class Pair:
    """A colour on another, what for, and the contrast it has to have at least."""

    front: str
    back: str
    use: str
    at_least: float


PAIRS: Final = (
    Pair(INK, PAPER, "words, the QR code, the dial", TEXT),
    Pair(QUIET, PAPER, "captions", TEXT),
    Pair(PAPER, DANGER, "the heading of the danger panel", TEXT),
    Pair(PAPER, INK, "the word DEMO", TEXT),
    Pair(DANGER, PAPER, "the line that sends people to the danger panel", TEXT),
    Pair(DANGER, PAPER, "the danger panel's edge and the sign of a prohibition", SHAPE),
    Pair(SAFE, PAPER, "the sign of the way out and the band between the marks", SHAPE),
    Pair(MANDATORY, PAPER, "the sign of what must be done", SHAPE),
    Pair(PAPER, SAFE, "the arrow on the sign of the way out", SHAPE),
    Pair(PAPER, MANDATORY, "the stroke on the sign of what must be done", SHAPE),
    Pair(INK, WARNING, "the edge of the bands outside the marks", SHAPE),
    Pair(PAPER, SAFE, "the edge that parts a mark from the band it crosses", SHAPE),
)
"""Every colour that means something or is read, on every colour it stands on."""

"""Is a figure that does not fit a slip of the pen: a decimal point moved, a unit mistaken?"""

from collections.abc import Callable
from typing import Final

from kb.engineering.record import Bounds
from kb.engineering.span import figure

_MOVES: Final = (0.1, 10, 0.01, 100, 0.001, 1000)


def moved_point(value: float, unit: str, fits: Callable[[float], bool]) -> str | None:
    """The sentence that asks whether a decimal point is in the wrong place, if moving it makes the figure fit."""
    for move in _MOVES:
        if value and fits(value * move):
            would = f"{figure(value * move)} {unit}".strip()
            return f"Is a decimal point in the wrong place? {would} would fit."
    return None


def guess(value: float, bounds: Bounds) -> str | None:
    """The same, when what is usual for the figure is all there is to go by."""
    return moved_point(value, bounds.usual.unit, lambda other: other in bounds.usual)


def joined(*sentences: str | None) -> str:
    """The sentences that there are, with a space between."""
    return " ".join(sentence for sentence in sentences if sentence)

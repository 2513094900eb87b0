"""Between what bounds does a formula hold, and what is said when a figure lies outside?"""

from dataclasses import dataclass
from math import isfinite


def figure(value: float, digits: int = 4) -> str:
    """A figure as an engineer writes it: so many significant digits, never an exponent, no idle noughts."""
    shown = f"{float(f'{value:.{digits}g}'):.10f}".rstrip("0").rstrip(".")
    return "0" if shown == "-0" else shown


class CannotWork(ValueError):
    """A figure that a formula does not hold for: what was expected, what was found, what to do next."""

    def __init__(self, expected: str, found: str, remedy: str) -> None:
        """Name all three in plain words, each without its full stop."""
        super().__init__(f"Expected {expected}, found {found}. {remedy}.")
        self.expected = expected
        self.found = found
        self.remedy = remedy


@dataclass(frozen=True, slots=True)
class Span:
    """The lowest and the highest figure that make sense, with their unit; a unit may be empty."""

    low: float
    high: float
    unit: str

    def __str__(self) -> str:
        return f"{figure(self.low)} to {self.of(self.high)}"

    def __contains__(self, value: float) -> bool:
        return isfinite(value) and self.low <= value <= self.high

    def of(self, value: float) -> str:
        """A figure with this span's unit."""
        return f"{figure(value)} {self.unit}".strip()


def within(what: str, value: float, span: Span) -> float:
    """The figure itself when the span holds it.

    Raises CannotWork.
    """
    if value in span:
        return value
    raise CannotWork(f"{what} of {span}", span.of(value), "Read it again and look at the unit and the decimal point")

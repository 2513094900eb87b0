"""The gauge as it is drawn for a home, and an answer's bounds as figures."""

from kb.article import Bounds
from kb.card.gauge import drawn
from kb.facts import GaugeMarks


def drawn_gauge(marks: GaugeMarks, reading: float | None) -> str:
    """The home's gauge as an SVG picture, with a needle where a reading was typed."""
    return drawn(marks, reading)


def with_figures(bounds: Bounds | None, marks: GaugeMarks) -> str:
    """The bounds of an answer in this home's figures."""
    match bounds:
        case None:
            return ""
        case Bounds(floor=None, ceiling=None):
            return ""
        case Bounds(floor=None, ceiling=ceiling) if ceiling is not None:
            return f"under {marks.bar(ceiling):g} bar"
        case Bounds(floor=floor, ceiling=None) if floor is not None:
            return f"over {marks.bar(floor):g} bar"
        case Bounds(floor=floor, ceiling=ceiling) if floor is not None and ceiling is not None:
            return f"{marks.bar(floor):g} to {marks.bar(ceiling):g} bar"
    return ""

"""The gauge as it is drawn for a home."""

from kb.card.gauge import drawn
from kb.facts import GaugeMarks


def drawn_gauge(marks: GaugeMarks, reading: float | None) -> str:
    """The home's gauge as an SVG picture, with a needle where a reading was typed."""
    return drawn(marks, reading)

"""How does a home's pressure gauge look, with its own marks and perhaps a reading?

The same drawing stands on the printed card and on the pages.
It carries no style, so that a page's content security policy may forbid styles; its colours are attributes,
which a page's own style sheet overrules by the classes.
"""

import re
from collections.abc import Iterator
from math import isfinite
from typing import Final

from kb.card.dial import CENTRE, HEIGHT, LETTERS, RADIUS, WIDTH, Label, angle, arc, figure, labels, point
from kb.card.palette import INK, PAPER, SAFE, WARNING
from kb.facts import PRESSURE_SPAN, GaugeMarks

TITLE: Final = "Pressure gauge"

_BAND: Final = (57.0, 10.0)
_FIGURES: Final = 34.5
_READING_LETTERS: Final = 19.0
_PREFIX: Final = re.compile(r"[A-Za-z][A-Za-z0-9_-]*")


def drawn(marks: GaugeMarks, reading: float | None = None, prefix: str = "gauge") -> str:
    """The gauge as SVG, the needle at `reading` if one is given; every id in it begins with `prefix`.

    Raises ValueError for a reading that is no figure, or a prefix that no id may begin with.
    """
    if reading is not None and not isfinite(reading):
        raise ValueError(f"Expected a reading in bar, found {reading}. Draw the gauge without one instead.")
    if not _PREFIX.fullmatch(prefix):
        raise ValueError(f"Expected letters, figures and dashes to begin ids with, found {prefix!r}.")
    return "".join(
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" class="gauge" viewBox="0 0 {WIDTH} {HEIGHT}" role="img" '
            f'aria-labelledby="{prefix}-title {prefix}-desc" font-family="Atkinson Hyperlegible, sans-serif" '
            f'font-size="{LETTERS:g}" text-anchor="middle" color="{INK}" fill="currentColor">',
            f'<title id="{prefix}-title">{TITLE}</title>',
            f'<desc id="{prefix}-desc">{described(marks, reading)}</desc>',
            *_face(marks),
            *_scale(),
            *(piece for label in labels(marks) for piece in _mark(label)),
            *_aim_pointer(marks),
            *_needle(reading),
            "</svg>",
        )
    )


def described(marks: GaugeMarks, reading: float | None = None) -> str:
    """What the drawing shows, for whoever does not see it."""
    least, most = PRESSURE_SPAN
    dial = f"A dial from {least:g} to {most:g} bar"
    low, aim, high = figure(marks.low), figure(marks.aim), figure(marks.high)
    words = f"{dial}, with marks at {low} (low), {aim} (aim for this) and {high} (high)."
    return words if reading is None else f"{words} The needle shows {figure(reading)} bar: {_where(marks, reading)}."


def _where(marks: GaugeMarks, reading: float) -> str:
    if reading < marks.low:
        return "below the low mark"
    return "above the high mark" if reading > marks.high else "between the marks"


def _face(marks: GaugeMarks) -> Iterator[str]:
    """The rim, and the bands: safe between the marks, take care outside them."""
    least, most = PRESSURE_SPAN
    radius, width = _BAND
    yield f'<circle class="gauge-face" cx="{CENTRE[0]:g}" cy="{CENTRE[1]:g}" r="{RADIUS:g}" fill="{PAPER}" '
    yield 'stroke="currentColor" stroke-width="2.5"/>'
    whole = arc(least, most, radius)
    yield f'<path d="{whole}" fill="none" stroke="currentColor" stroke-width="{width + 2:g}"/>'
    bands = (("care", least, marks.low, WARNING), ("safe", marks.low, marks.high, SAFE))
    for name, start, end, colour in (*bands, ("care", marks.high, most, WARNING)):
        yield f'<path class="gauge-{name}" d="{arc(start, end, radius)}" fill="none" stroke="{colour}" '
        yield f'stroke-width="{width:g}"/>'


def _scale() -> Iterator[str]:
    """A stroke every half bar and a figure every whole one."""
    inner = _BAND[0] - _BAND[1] / 2 - 1
    for halves in range(int(PRESSURE_SPAN[1] * 2) + 1):
        bar, whole = halves / 2, halves % 2 == 0
        yield _stroke(angle(bar), inner, inner - (7 if whole else 4), 1.6)
        if whole:
            x, y = point(angle(bar), _FIGURES)
            yield f'<text x="{x:.2f}" y="{y + 5.5:.2f}">{bar:g}</text>'


def _mark(label: Label) -> Iterator[str]:
    """A mark across the band, with a line to its words where they had to move aside."""
    inner, outer = _BAND[0] - _BAND[1] / 2 - 1, RADIUS + 4
    yield _stroke(label.mark, inner, RADIUS - 2, 7, PAPER)
    yield _stroke(label.mark, inner, outer, 3)
    x, y = label.middle
    if label.angle != label.mark:
        (a, b), (c, d) = point(label.mark, outer), point(label.angle, RADIUS + 10)
        yield f'<path d="M{a:.2f} {b:.2f}L{c:.2f} {d:.2f}" fill="none" stroke="currentColor"/>'
    bold = ' font-weight="700"' if label.letters > LETTERS else ""
    yield f'<text class="gauge-mark" x="{x:.2f}" y="{y + label.letters * 0.34:.2f}" '
    yield f'font-size="{label.letters:g}"{bold}>{label.words}</text>'


def _aim_pointer(marks: GaugeMarks) -> Iterator[str]:
    """A solid triangle outside the rim that points at the mark to aim for."""
    at = angle(marks.aim)
    corners = (point(at, RADIUS - 3), point(at - 6, RADIUS + 9), point(at + 6, RADIUS + 9))
    yield f'<path class="gauge-aim" d="M{"L".join(f"{x:.2f} {y:.2f}" for x, y in corners)}Z"/>'


def _needle(reading: float | None) -> Iterator[str]:
    """The needle and its figure; without a reading there is none, so that nobody takes it for one."""
    x, y = CENTRE
    if reading is None:
        yield f'<text x="{x:g}" y="{y + 6:g}">bar</text>'
        return
    at = angle(reading)
    corners = (point(at, _BAND[0] - 3), point(at + 90, 4), point(at + 180, 14), point(at - 90, 4))
    yield f'<path class="gauge-needle" d="M{"L".join(f"{a:.2f} {b:.2f}" for a, b in corners)}Z"/>'
    yield f'<circle cx="{x:g}" cy="{y:g}" r="6.5"/>'
    yield f'<text class="gauge-reading" x="{x:g}" y="{y + 51:g}" font-size="{_READING_LETTERS:g}" '
    yield f'font-weight="700">{figure(reading)} bar</text>'


def _stroke(degrees: float, start: float, end: float, width: float, colour: str = "currentColor") -> str:
    (x, y), (a, b) = point(degrees, start), point(degrees, end)
    return f'<path d="M{x:.2f} {y:.2f}L{a:.2f} {b:.2f}" fill="none" stroke="{colour}" stroke-width="{width:g}"/>'

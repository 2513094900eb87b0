"""Where on a dial does a pressure stand, and where do the words beside its marks go?

Angles are degrees clockwise from straight up; lengths are units of the drawing.
"""

from dataclasses import dataclass
from math import cos, radians, sin
from typing import Final

from kb.facts import PRESSURE_SPAN, GaugeMarks

WIDTH: Final = 290
HEIGHT: Final = 178
CENTRE: Final = (168.0, 107.0)
RADIUS: Final = 66.0

SWEEP: Final = (-135.0, 135.0)
"""The angles of the first and the last figure: three quarters of a turn, open at the bottom, as real dials are."""

LETTERS: Final = 15.5
"""The height of the small letters; the letters of the mark to aim for are higher."""

AIM_LETTERS: Final = 19.0

_CLEAR: Final = 15.0
_CLEAR_OF_POINTER: Final = 20.0
_APART: Final = 3.0
_NUDGE: Final = 1.0
_LETTER_WIDTH: Final = 0.52


@dataclass(frozen=True, slots=True)
class Label:
    """A mark's words beside the dial: where their middle is, and the angles of the words and of the mark."""

    words: str
    letters: float
    angle: float
    mark: float

    @property
    def width(self) -> float:
        """How wide the words are, reckoned on the wide side."""
        return len(self.words) * self.letters * _LETTER_WIDTH

    @property
    def middle(self) -> tuple[float, float]:
        """The middle of the words: as far out as keeps all of them clear of the dial, and of the aim's pointer."""
        out = RADIUS + (_CLEAR_OF_POINTER if self.letters == AIM_LETTERS else _CLEAR)
        right, up = sin(radians(self.angle)), cos(radians(self.angle))
        return CENTRE[0] + right * (out + self.width / 2), CENTRE[1] - up * (out + self.letters / 2)

    def covers(self, other: "Label") -> bool:
        """Whether the words would touch those of another."""
        (x, y), (a, b) = self.middle, other.middle
        beside = abs(x - a) >= (self.width + other.width) / 2 + _APART
        above = abs(y - b) >= (self.letters + other.letters) / 2 + _APART
        return not (beside or above)


def figure(bar: float) -> str:
    """A pressure as it is written: one figure after the point, two only where there are more."""
    return f"{bar:.1f}" if round(bar, 1) == bar else f"{bar:.2f}"


def angle(bar: float) -> float:
    """The angle at which a pressure stands; beyond the figures, that of the pin that stops the needle."""
    least, most = PRESSURE_SPAN
    share = (min(max(bar, least), most) - least) / (most - least)
    return SWEEP[0] + share * (SWEEP[1] - SWEEP[0])


def point(degrees: float, radius: float) -> tuple[float, float]:
    """The point at an angle, so far from the middle."""
    return CENTRE[0] + radius * sin(radians(degrees)), CENTRE[1] - radius * cos(radians(degrees))


def arc(from_bar: float, to_bar: float, radius: float) -> str:
    """The path along the dial from one pressure to a higher one."""
    start, end = angle(from_bar), angle(to_bar)
    (x, y), (a, b) = point(start, radius), point(end, radius)
    return f"M{x:.2f} {y:.2f}A{radius:g} {radius:g} 0 {int(end - start > 180)} 1 {a:.2f} {b:.2f}"


def labels(marks: GaugeMarks) -> tuple[Label, Label, Label]:
    """The words of the low mark, the one to aim for and the high one, moved apart where the marks are close."""
    low, aim, high = (angle(bar) for bar in (marks.low, marks.aim, marks.high))
    middle = Label(f"aim {figure(marks.aim)}", AIM_LETTERS, aim, aim)
    return (
        _moved(Label(f"low {figure(marks.low)}", LETTERS, low, low), middle, -_NUDGE),
        middle,
        _moved(Label(f"high {figure(marks.high)}", LETTERS, high, high), middle, _NUDGE),
    )


def _moved(label: Label, away_from: Label, step: float) -> Label:
    while label.covers(away_from):
        label = Label(label.words, label.letters, label.angle + step, label.mark)
    return label

"""How large is each thing in a drawn tree, with its words set in lines?"""

from collections.abc import Iterable
from dataclasses import dataclass
from math import ceil
from typing import Final

from kb.drawing import words
from kb.drawing.letters import width, wrapped
from kb.drawing.picture import Box, Exit, Picture, Way

TITLE: Final = 13.5
LABEL: Final = 12.0
NOTE: Final = 11.5
HEADING: Final = 19.0
LEADING: Final = 1.28

BOX: Final = 216
PAD: Final = 11.0
ANSWER: Final = 148.0
ARROW: Final = 172.0
SIGN: Final = 158.0
SIGN_PAD: Final = 9.0
BESIDE: Final = 334

_ROW_GAP: Final = 9.0
_WAY: Final = 150.0
_UNDER_WORDS: Final = 5.0
_GAP: Final = 6.0
_LEAST: Final = 3
_BULLET: Final = "• "


@dataclass(frozen=True, slots=True)
class Line:
    """One line of words, as large and as strong as it is set.

    `quiet` lines say what is not the author's own; a `mark` must not be missed, and may go on from the line before.
    """

    words: str
    size: float
    strong: bool = False
    quiet: bool = False
    mark: bool = False
    goes_on: bool = False

    @property
    def height(self) -> float:
        """The room from this line to the next."""
        return self.size * (1.5 if self.mark else LEADING)

    @property
    def width(self) -> float:
        """How wide the line is."""
        return width(self.words, self.size, self.strong)


@dataclass(frozen=True, slots=True)
class Row:
    """A way out: the words of its answers, its sign, and the height of the line between, from the row's top."""

    exit: Exit
    answers: tuple[Line, ...]
    sign: tuple[Line, ...]
    line: float
    height: float

    @property
    def sign_height(self) -> float:
        """How high the sign is."""
        return height(self.sign) + SIGN_PAD


@dataclass(frozen=True, slots=True)
class SetBox:
    """A step with its words in lines and its ways out in rows."""

    box: Box
    lines: tuple[Line, ...]
    rows: tuple[Row, ...]
    height: int

    @property
    def beside(self) -> int:
        """The room its ways out take to the right of it."""
        return BESIDE if self.rows else 0


@dataclass(frozen=True, slots=True)
class SetWay:
    """A way inside the article with its label in lines."""

    way: Way
    lines: tuple[Line, ...]

    @property
    def width(self) -> int:
        """The label's width, with a little air to the line it belongs to."""
        return ceil(max(line.width for line in self.lines)) + 14

    @property
    def height(self) -> int:
        """The label's height, with a little air."""
        return ceil(height(self.lines)) + 8


def height(lines: Iterable[Line]) -> float:
    """The height of lines under one another."""
    return sum(line.height for line in lines)


def set_box(box: Box) -> SetBox:
    """A step, set."""
    room = BOX - 2 * PAD
    tags = [words.BEGINS] if box.begins else [words.UNREACHABLE] if box.unreachable else []
    lines = (
        *(Line(tag, NOTE, strong=True, mark=True) for tag in tags),
        *_lines([box.title], room, TITLE, strong=True),
        *_lines(box.notes, room, NOTE, quiet=True),
        *(line for mark in box.marks for line in set_mark(mark, room)),
    )
    rows = tuple(map(_row, box.exits))
    beside = sum(row.height for row in rows) + _ROW_GAP * (len(rows) + 1)
    lines += _text(box, room, beside - 2 * PAD - height(lines))
    return SetBox(box, lines, rows, ceil(max(height(lines) + 2 * PAD, beside)))


def _text(box: Box, room: float, high: float) -> tuple[Line, ...]:
    """As much of a step's text as fits beside its ways out, and its beginning always."""
    lines = _lines(box.text, room, NOTE)
    if not lines:
        return ()
    fitting = max(_LEAST, int((high - _GAP) / (NOTE * LEADING)))
    if fitting < len(lines):
        last = lines[fitting - 1].words.rstrip(" .,:") + " …"
        lines = (*lines[: fitting - 1], *_lines([last], room + PAD, NOTE)[:1])
    return (Line("", _GAP / LEADING), *lines)


def set_mark(mark: str, room: float) -> tuple[Line, ...]:
    """The lines that tell of a finding."""
    pieces = enumerate(wrapped(mark, room - 26, NOTE, strong=True))
    return tuple(Line(piece, NOTE, strong=True, mark=True, goes_on=number > 0) for number, piece in pieces)


def set_way(way: Way) -> SetWay:
    """A way, set."""
    return SetWay(way, _answers(way.answers, _WAY))


def rows_from(top: float, rows: Iterable[Row]) -> Iterable[tuple[float, Row]]:
    """Each row with the height it begins at."""
    at = top + _ROW_GAP
    for row in rows:
        yield at, row
        at += row.height + _ROW_GAP


def set_heading(picture: Picture, room: float) -> tuple[Line, ...]:
    """The lines above a picture: its title, and the findings that belong to no step."""
    marks = (line for mark in picture.marks for line in set_mark(mark, room))
    return (*_lines([picture.title], room, HEADING, strong=True), *marks)


def _row(exit: Exit) -> Row:
    answers = _answers(exit.answers, ANSWER)
    room = SIGN - 2 * SIGN_PAD
    sign = (*_lines([exit.title], room, LABEL, strong=True), *_lines([exit.note], room, NOTE, quiet=True))
    half = (height(sign) + SIGN_PAD) / 2
    line = max(height(answers) + _UNDER_WORDS, half)
    return Row(exit, answers, sign, line, line + half)


def _answers(answers: tuple[str, ...], room: float) -> tuple[Line, ...]:
    bullet = _BULLET if len(answers) > 1 else ""
    return _lines([f"{bullet}{answer}" for answer in answers], room, LABEL)


def _lines(
    texts: Iterable[str], room: float, size: float, strong: bool = False, quiet: bool = False
) -> tuple[Line, ...]:
    return tuple(Line(piece, size, strong, quiet) for text in texts for piece in wrapped(text, room, size, strong))

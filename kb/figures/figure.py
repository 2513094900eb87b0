"""What does a picture of the figures show, in marks, in a table and in words?"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Final

from kb.listing.guard import guarded

ENOUGH: Final = 30
"""Fewer cases say nothing (common practice: thirty before a share is moved)."""


class Share(float):
    """A number between 0 and 1, shown to people in percent."""

    __slots__ = ()


Cell = str | int | float | None
"""What stands in a table: words, a count, a measured figure, a share, or nothing."""


@dataclass(frozen=True, slots=True)
class Table:
    """The series behind a picture: names of columns, and rows."""

    columns: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


@dataclass(frozen=True, slots=True)
class WeekRow:
    """One thing, week by week, with what all weeks come to."""

    label: str
    values: tuple[int, ...]

    @property
    def total(self) -> int:
        """All weeks together."""
        return sum(self.values)


@dataclass(frozen=True, slots=True)
class Weekly:
    """Rows of small bars over the same weeks; `marked` weeks stand out in all of them, and `mark` says why."""

    rows: tuple[WeekRow, ...]
    marked: tuple[bool, ...]
    mark: str
    ticks: tuple[tuple[int, str], ...]


@dataclass(frozen=True, slots=True)
class Point:
    """A share, and how many cases it is of."""

    part: int
    whole: int

    @property
    def share(self) -> Share | None:
        """The share, None of nothing."""
        return Share(self.part / self.whole) if self.whole else None


@dataclass(frozen=True, slots=True)
class Panel:
    """One share over time, with the line it should keep to, if there is one."""

    label: str
    points: tuple[Point, ...]
    wanted: float | None = None


@dataclass(frozen=True, slots=True)
class Trend:
    """Shares over the same time, one under the other, so that they are seen together."""

    panels: tuple[Panel, ...]
    ticks: tuple[tuple[int, str], ...]


@dataclass(frozen=True, slots=True)
class Bar:
    """One bar; `inner` is the part of it that is filled, `words` what stands at its end."""

    label: str
    value: int
    words: str
    inner: int | None = None


@dataclass(frozen=True, slots=True)
class Bars:
    """Bars under one another; `outer_words` and `inner_words` say what the whole and the filled part are."""

    bars: tuple[Bar, ...]
    inner_words: str = ""
    outer_words: str = ""


@dataclass(frozen=True, slots=True)
class Matrix:
    """What was expected, across, against what it was, down; both in the order of `labels`, then any other."""

    labels: tuple[str, ...]
    cells: tuple[tuple[int, ...], ...]
    edge: tuple[Point, ...]
    edge_words: str


Chart = Weekly | Trend | Bars | Matrix


@dataclass(frozen=True, slots=True)
class Figure:
    """A picture: its name in addresses, its title, what it says, how many cases it is of, marks and table.

    `case` is the word for its cases, `note` what else to bear in mind.
    Each line of `a_list` means something by itself, so that its cases are never too few.
    """

    name: str
    title: str
    says: str
    cases: int
    case: str
    chart: Chart
    table: Table
    note: str = ""
    a_list: bool = False

    @property
    def empty(self) -> bool:
        """Whether there is nothing to draw."""
        return not self.cases

    @property
    def few(self) -> bool:
        """Whether its cases are too few to mean anything."""
        return self.cases < ENOUGH and not self.a_list

    @property
    def behind(self) -> str:
        """How many cases stand behind it, and whether they are too few."""
        if self.empty:
            return "There is nothing to count yet."
        counted = f"{self.cases:,} {self.case if self.cases != 1 else self.case.removesuffix('s')}"
        if not self.few:
            return f"Behind this: {counted}."
        return f"Behind this: only {counted}. Fewer than {ENOUGH} are too few to mean anything (common practice)."

    @property
    def description(self) -> str:
        """What somebody hears who cannot see it."""
        return " ".join(filter(None, (self.says, self.behind, self.note)))


def percent(part: int, whole: int) -> str:
    """A share in words for people: never 0 or 100 % unless it is exactly that."""
    if not whole:
        return "none"
    shown = round(100 * part / whole)
    if shown == 0 and part:
        return "under 1%"
    if shown == 100 and part < whole:
        return "over 99%"
    return f"{shown}%"


def written(table: Table) -> Iterator[tuple[str, ...]]:
    """The rows of a table as people read them, shares in percent."""
    for row in table.rows:
        yield tuple(_shown(cell) for cell in row)


def csv(table: Table) -> str:
    """The table as comma-separated values (RFC 4180), with a sign before what a spreadsheet would run."""
    lines: Iterable[tuple[Cell, ...]] = (table.columns, *table.rows)
    return "".join(",".join(map(_field, line)) + "\r\n" for line in lines)


def _shown(cell: Cell) -> str:
    if cell is None:
        return "–"
    if isinstance(cell, Share):
        return f"{100 * cell:.1f}%"
    if isinstance(cell, float):
        return f"{cell:.1f}".replace("-", "−")
    return f"{cell:,}" if isinstance(cell, int) else cell


def _field(cell: Cell) -> str:
    if cell is None:
        return ""
    if isinstance(cell, float):
        return f"{cell:.4f}" if isinstance(cell, Share) else f"{cell:.1f}"
    words = guarded(cell) if isinstance(cell, str) else str(cell)
    return '"' + words.replace('"', '""') + '"' if set(words) & set('",\r\n') else words

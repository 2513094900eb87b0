"""What the page of the figures shows."""

from dataclasses import dataclass
from typing import ClassVar

from server.staff.pages import StaffFrame
from server.web.pages import Page


@dataclass(frozen=True, slots=True)
class Choice:
    """A period to look at, and whether it is the one that is shown."""

    words: str
    address: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class Picture:
    """One picture with its words, its table and the address of its table as a file.

    `svg` is empty where there is nothing to draw, and `few` says that its cases are too few.
    `left` is how many rows are in the file alone, `cases` the address of the list of cases behind it.
    """

    name: str
    title: str
    says: str
    behind: str
    few: bool
    note: str
    svg: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    csv: str
    left: int = 0
    cases: str = ""


@dataclass(frozen=True, slots=True)
class FiguresPage(Page):
    """How it goes: every picture."""

    template: ClassVar[str] = "figures.html.j2"
    frame: StaffFrame
    periods: tuple[Choice, ...]
    weeks: str
    waiting: bool
    pictures: tuple[Picture, ...]


@dataclass(frozen=True, slots=True)
class SlowPage(Page):
    """The calls that were not clear of danger within the first minute; `most` says where they stuck most often."""

    template: ClassVar[str] = "figures_slow.html.j2"
    frame: StaffFrame
    periods: tuple[Choice, ...]
    weeks: str
    calls: int
    most: tuple[str, ...]
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    left: int
    csv: str
    back: str

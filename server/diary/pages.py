"""What the pages of the diary show: one value a template."""

from dataclasses import dataclass
from typing import ClassVar

from server.diary.booking import Booking
from server.diary.leaving import Leaving
from server.staff.pages import StaffFrame
from server.web.pages import Page


@dataclass(frozen=True, slots=True)
class DiaryRow:
    """A visit in the list."""

    address: str
    title: str
    where: str
    pace: str
    when: str
    who: str
    overdue: str
    part: str
    late: str
    missed: str


@dataclass(frozen=True, slots=True)
class DiaryPage(Page):
    """Every visit still to be made."""

    template: ClassVar[str] = "diary.html.j2"
    frame: StaffFrame
    script: str
    style: str
    back: tuple[str, str]
    rows: tuple[DiaryRow, ...]
    overdue: int


@dataclass(frozen=True, slots=True)
class MovePage(Page):
    """One visit: what it came to so far, another time for it, or calling it off; `note` is that of its call."""

    template: ClassVar[str] = "diary_move.html.j2"
    frame: StaffFrame
    script: str
    style: str
    room: str
    id: str
    alert: str
    row: DiaryRow
    trail: tuple[tuple[str, str], ...]
    booking: Booking
    leaving: Leaving
    note: str

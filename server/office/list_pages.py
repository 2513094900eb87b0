"""What each page about many homes shows, and those of cards and calendars: one value a template."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from server.office.pages import Link
from server.preview import CardPage
from server.staff.pages import StaffFrame
from server.web.pages import Page


@dataclass(frozen=True, slots=True)
class ColumnRow:
    """A column of a table of homes, as the page explains it."""

    name: str
    expects: str
    values: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class ListPage(Page):
    """Homes from a file and into one."""

    template: ClassVar[str] = "office_list.html.j2"
    frame: StaffFrame
    done: str
    alert: str
    problems: tuple[tuple[str, ...], ...]
    columns: tuple[ColumnRow, ...]


@dataclass(frozen=True, slots=True)
class DueRow:
    """One thing that falls due."""

    day: str
    what: str
    place: str
    home: str


@dataclass(frozen=True, slots=True)
class DueGroup:
    """All of one kind that falls due."""

    title: str
    rows: tuple[DueRow, ...]


@dataclass(frozen=True, slots=True)
class DuePage(Page):
    """What falls due in a month, and in the month that is now what is late."""

    template: ClassVar[str] = "office_due.html.j2"
    frame: StaffFrame
    title: str
    groups: tuple[DueGroup, ...]
    late: tuple[DueGroup, ...]
    earlier: Link
    later: Link
    months: tuple[Link, ...]


@dataclass(frozen=True, slots=True)
class CalendarPage(Page):
    """The secret address of somebody's calendar."""

    template: ClassVar[str] = "office_calendar.html.j2"
    frame: StaffFrame
    made: str
    address: str


@dataclass(frozen=True, slots=True)
class ChangedCard:
    """A card that is no longer as it was printed, or that an engineer found wrong: who, when, in which words."""

    title: str
    address: str
    key: str
    printed: str
    why: str
    said: str


@dataclass(frozen=True, slots=True)
class CardsPage(Page):
    """The cards whose data changed since they were printed."""

    template: ClassVar[str] = "office_cards.html.j2"
    frame: StaffFrame
    alert: str
    cards: tuple[ChangedCard, ...]
    sizes: tuple[tuple[str, str, int], ...]
    names: Mapping[str, str]
    most: int


@dataclass(frozen=True, slots=True)
class HomeCardPage(CardPage):
    """A home's card in a size, with what was printed when, and the way to say that it is on paper."""

    template: ClassVar[str] = "office_card.html.j2"
    alert: str
    code: str
    action: str
    printed: tuple[str, ...]

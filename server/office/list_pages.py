"""What each page about many homes shows, and those of cards and calendars: one value a template."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from server.office.figure_pages import Choice
from server.office.forms import Field
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
    alert: str
    columns: tuple[ColumnRow, ...]


@dataclass(frozen=True, slots=True)
class StepPart(Page):
    """A piece of the page while a file is taken in: how much of it was gone through."""

    template: ClassVar[str] = "office_step.html.j2"
    done: int
    whole: int
    words: str


@dataclass(frozen=True, slots=True)
class OutcomePart(Page):
    """The last piece of it: what became of the file, and what is to be mended."""

    template: ClassVar[str] = "office_outcome.html.j2"
    done: str
    alert: str
    problems: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class ChosenRow:
    """A home among those that are chosen."""

    place: str
    home: str
    appliance: str
    service: str
    alarm: str


@dataclass(frozen=True, slots=True)
class ChosenPage(Page):
    """The homes of a range, with something due, in a place: some of them, and what can be done with all."""

    template: ClassVar[str] = "office_homes.html.j2"
    frame: StaffFrame
    fields: tuple[Field, ...]
    many: str
    homes: tuple[ChosenRow, ...]
    table: Link
    cards: Link
    pages: tuple[Link, ...]


@dataclass(frozen=True, slots=True)
class ChosenCardsPage(Page):
    """The cards of homes that are chosen: so many at a time, and who is left out since theirs may not be printed.

    `marks` says of each card what it is made from.
    """

    template: ClassVar[str] = "office_print.html.j2"
    frame: StaffFrame
    alert: str
    many: str
    first: int
    homes: int
    hidden: tuple[tuple[str, str], ...]
    marks: str
    refused: tuple[Link, ...]
    sizes: tuple[Choice, ...]
    parts: tuple[Choice, ...]
    back: Link


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
    homes: Link


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

"""What each page about one home shows, and the first page: one value a template."""

from dataclasses import dataclass
from typing import ClassVar

from server.office.forms import Group, Said
from server.staff.pages import StaffFrame
from server.web.frame import PhoneLink
from server.web.pages import Page


@dataclass(frozen=True, slots=True)
class Link:
    """Somewhere to go on to."""

    words: str
    address: str
    hint: str = ""


@dataclass(frozen=True, slots=True)
class Line:
    """One thing that is known: what it is, and its words."""

    name: str
    words: str


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a home's page, with the way to its form."""

    name: str
    title: str
    lines: tuple[Line, ...]
    change: str


@dataclass(frozen=True, slots=True)
class Needed:
    """What somebody needs, with its days; `overdue` says that they must be asked again by now."""

    words: str
    days: str
    overdue: bool


@dataclass(frozen=True, slots=True)
class Somebody:
    """A person on a home's page."""

    name: str
    role: str
    phones: tuple[PhoneLink, ...]
    needs: tuple[Needed, ...]
    change: str
    held: str
    forget: str


@dataclass(frozen=True, slots=True)
class FoundHome:
    """A home among those that were found."""

    title: str
    address: str
    names: str
    place: str


@dataclass(frozen=True, slots=True)
class OfficePage(Page):
    """The first page: find a home, or go on to a list; after a search, the homes that were found."""

    template: ClassVar[str] = "office.html.j2"
    frame: StaffFrame
    alert: str
    typed: str
    found: tuple[FoundHome, ...]
    more: bool
    ways: tuple[tuple[str, tuple[Link, ...]], ...]
    unheard: str


@dataclass(frozen=True, slots=True)
class HomePage(Page):
    """All that is known of a home."""

    template: ClassVar[str] = "office_home.html.j2"
    frame: StaffFrame
    done: str
    title: str
    place: str
    key: str
    people: tuple[Somebody, ...]
    new_person: str
    parts: tuple[Part, ...]
    cards: tuple[str, ...]
    links: tuple[Link, ...]


@dataclass(frozen=True, slots=True)
class FormPage(Page):
    """A form of a home."""

    template: ClassVar[str] = "office_form.html.j2"
    frame: StaffFrame
    title: str
    about: str
    intro: str
    mistakes: tuple[Said, ...]
    groups: tuple[Group, ...]
    action: str
    seen: str
    back: str


@dataclass(frozen=True, slots=True)
class SurePage(Page):
    """Is it really meant? What happens then, and the one button that does it."""

    template: ClassVar[str] = "office_sure.html.j2"
    frame: StaffFrame
    title: str
    about: str
    sections: tuple[tuple[str, tuple[str, ...]], ...]
    tick: str
    alert: str
    button: str
    action: str
    back: str


@dataclass(frozen=True, slots=True)
class ToldPage(Page):
    """Something told section by section, to be read or printed."""

    template: ClassVar[str] = "office_told.html.j2"
    frame: StaffFrame
    title: str
    about: str
    sections: tuple[tuple[str, tuple[str, ...]], ...]
    links: tuple[Link, ...]


@dataclass(frozen=True, slots=True)
class TablePage(Page):
    """Something told as a table."""

    template: ClassVar[str] = "office_table.html.j2"
    frame: StaffFrame
    title: str
    about: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    nothing: str
    links: tuple[Link, ...]

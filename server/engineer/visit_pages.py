"""What each page about a visit shows: one value a template."""

from dataclasses import dataclass
from typing import ClassVar

from kb.prose import Block
from kb.triage.brief import Brief
from kb.visit.readings import Reading
from server.diary.leaving import Leaving
from server.engineer.pages import FieldShown, FoundHome, Link
from server.staff.pages import StaffFrame
from server.web.frame import PhoneLink
from server.web.pages import Page


@dataclass(frozen=True, slots=True)
class ToDo:
    """A visit still to be made: its `address` where I have it, else what a form sends to take it.

    Without a fault whoever takes it chooses one; `overdue` says so in words.
    """

    address: str
    verb: str
    call: str
    job: str
    words: str
    pace: str
    when: str
    where: str
    who: str
    part: str
    missed: str
    overdue: str
    fault: str


@dataclass(frozen=True, slots=True)
class VisitsPage(Page):
    """My visits of today, my others, those for whoever is free, those of others, and a visit without a call."""

    template: ClassVar[str] = "visits.html.j2"
    frame: StaffFrame
    scripts: tuple[str, ...]
    alert: str
    groups: tuple[tuple[str, tuple[ToDo, ...]], ...]
    sought: str
    found: tuple[FoundHome, ...]
    faults: tuple[Link, ...]


@dataclass(frozen=True, slots=True)
class BriefPage(Page):
    """The brief of a visit; `closed` says how it was closed, in lines, `again` leads to the second visit it left.

    `missed` says that it was not made, `off` that it was called off and nobody goes.
    """

    template: ClassVar[str] = "visit_brief.html.j2"
    frame: StaffFrame
    scripts: tuple[str, ...]
    address: str
    title: str
    pace: str
    brief: Brief | None
    closed: tuple[tuple[str, str], ...]
    again: str
    missed: str
    off: bool
    base: str


@dataclass(frozen=True, slots=True)
class AnswerShown:
    """An answer to a check: the field it is written in, its text there, its words, and where a danger leads."""

    field: str
    text: str
    words: str
    leads: str = ""


@dataclass(frozen=True, slots=True)
class StopShown:
    """A check, or an end of the checks."""

    place: str
    title: str
    body: tuple[Block, ...]
    answers: tuple[AnswerShown, ...]
    pace: str
    open: bool


@dataclass(frozen=True, slots=True)
class TakenShown:
    """An answer given, and the field it can be taken back in."""

    question: str
    answer: str
    field: str


@dataclass(frozen=True, slots=True)
class WalkShown:
    """One article's checks: every stop, the open one marked, and what was answered so far; `ways` is JSON."""

    id: str
    title: str
    stops: tuple[StopShown, ...]
    taken: tuple[TakenShown, ...]
    ways: str
    open: bool


@dataclass(frozen=True, slots=True)
class LackingShown:
    """A field in the way of closing, and why."""

    field: str
    words: str
    why: str


@dataclass(frozen=True, slots=True)
class SitePage(Page):
    """The page for work on site: arrive, walk the checks, note readings, close."""

    template: ClassVar[str] = "visit_site.html.j2"
    frame: StaffFrame
    scripts: tuple[str, ...]
    address: str
    title: str
    clock: int
    danger: tuple[StopShown, ...]
    danger_open: bool
    walks: tuple[WalkShown, ...]
    readings: tuple[Reading, ...]
    units: tuple[str, ...]
    places: tuple[str, ...]
    close: tuple[FieldShown, ...]
    changes: tuple[FieldShown, ...]
    unsafe: tuple[FieldShown, ...]
    unsafe_open: bool
    procedure: str
    gas: PhoneLink
    arrived: bool
    alert: str
    leaving: Leaving | None
    stood: int
    lacking: tuple[LackingShown, ...]
    report: str
    report_days: int
    walk_end: str
    answered: str
    conflicts: str
    base: str

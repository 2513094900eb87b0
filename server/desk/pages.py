"""What each page of the desk shows: one value a template."""

from dataclasses import dataclass
from typing import ClassVar

from kb.article import Passage
from kb.desk.note import Note
from kb.prose import Block
from kb.triage.brief import Brief
from server.desk.parts import Around, Asking, Choice, Due, Field, Listed, Told
from server.diary.booking import Booking
from server.staff.pages import StaffFrame
from server.web.pages import Page


@dataclass(frozen=True, slots=True)
class CallsPage(Page):
    """The calls that are open, and those to ask about again."""

    template: ClassVar[str] = "calls.html.j2"
    frame: StaffFrame
    script: str
    style: str
    id: str
    calls: tuple[Listed, ...]
    asking: tuple[Asking, ...]
    due: tuple[Due, ...]


@dataclass(frozen=True, slots=True)
class DangerPage(Page):
    """One danger question, why it is asked, and the rules for whoever asks it."""

    template: ClassVar[str] = "call-danger.html.j2"
    frame: StaffFrame
    around: Around
    why: str
    words: str
    place: int
    of: int
    step: str
    title: str
    body: tuple[Block, ...]
    rules: tuple[tuple[str, tuple[Block, ...]], ...]


@dataclass(frozen=True, slots=True)
class EmergencyPage(Page):
    """Danger: exactly what to say, and the number; `back` is the answer that led here, or negative for a question."""

    template: ClassVar[str] = "call-emergency.html.j2"
    frame: StaffFrame
    around: Around
    title: str
    pace: str
    actions: tuple[tuple[str, str], ...]
    call_name: str
    number: str
    digits: str
    ours: bool
    body: tuple[Block, ...]
    passages: tuple[Passage, ...]
    back: int
    branch: int
    fields: tuple[Field, ...]
    agreed: str


@dataclass(frozen=True, slots=True)
class WhoPage(Page):
    """Who rings, and which home it is."""

    template: ClassVar[str] = "call-who.html.j2"
    frame: StaffFrame
    around: Around
    fields: tuple[Field, ...]
    more: tuple[Field, ...]
    scrap: str
    found: tuple[Choice, ...]
    looked: bool


@dataclass(frozen=True, slots=True)
class WhatPage(Page):
    """What is wrong, in their words, and which article it may be."""

    template: ClassVar[str] = "call-what.html.j2"
    frame: StaffFrame
    around: Around
    words: str
    fields: tuple[Field, ...]
    asks: str
    choices: tuple[Choice, ...]
    others: tuple[Choice, ...]
    said: tuple[str, ...]
    reference: str


@dataclass(frozen=True, slots=True)
class StepPage(Page):
    """One step read aloud, with its answers on keys."""

    template: ClassVar[str] = "call-step.html.j2"
    frame: StaffFrame
    around: Around
    about: str
    branch: int
    place: int
    title: str
    intro: tuple[Block, ...]
    body: tuple[Block, ...]
    own_words_of: str
    own_words: tuple[Block, ...]
    hint: str
    asks_reading: bool
    typed: str
    choices: tuple[Choice, ...]
    way_out: Choice
    told: tuple[Told, ...]
    gone: tuple[str, ...]
    waiting: int
    lost: int
    unread: bool
    passages: tuple[Passage, ...]


@dataclass(frozen=True, slots=True)
class EndPage(Page):
    """Where the script came to: what to say, and how soon somebody goes."""

    template: ClassVar[str] = "call-end.html.j2"
    frame: StaffFrame
    around: Around
    about: str
    branch: int
    title: str
    actions: tuple[tuple[str, str], ...]
    call_name: str
    number: str
    body: tuple[Block, ...]
    passages: tuple[Passage, ...]
    reasons: tuple[str, ...]
    told: tuple[Told, ...]
    gone: tuple[str, ...]
    waiting: int
    lost: int
    unread: bool


@dataclass(frozen=True, slots=True)
class PacePage(Page):
    """Who is there, how cold it is, how soon somebody goes and why."""

    template: ClassVar[str] = "call-pace.html.j2"
    frame: StaffFrame
    around: Around
    needs: tuple[tuple[str, str, bool], ...]
    fields: tuple[Field, ...]
    from_end: str
    reasons: tuple[str, ...]
    unasked: tuple[str, ...]
    chosen: str
    fixed: bool
    judged: str
    paces: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class BookPage(Page):
    """When somebody comes, and who."""

    template: ClassVar[str] = "call-book.html.j2"
    frame: StaffFrame
    around: Around
    agreed: str
    booking: Booking


@dataclass(frozen=True, slots=True)
class FinishPage(Page):
    """What is promised, and how the call ends.

    `spoken` is what the caller is told of the visit, `anew` why it must be agreed again before the call is booked.
    """

    template: ClassVar[str] = "call-finish.html.j2"
    frame: StaffFrame
    around: Around
    spoken: str
    agreed: str
    anew: str
    promises: tuple[str, ...]
    colleagues: tuple[str, ...]
    closings: tuple[Choice, ...]
    closed: str
    missing: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class NotePage(Page):
    """The note of a call, to be read or printed."""

    template: ClassVar[str] = "call-note.html.j2"
    frame: StaffFrame
    around: Around
    note: Note


@dataclass(frozen=True, slots=True)
class BriefPage(Page):
    """The engineer's brief, to be read or printed."""

    template: ClassVar[str] = "call-brief.html.j2"
    frame: StaffFrame
    around: Around
    brief: Brief
    pace_words: str

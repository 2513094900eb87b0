"""What each household page shows: one value a template."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from kb.article import Passage
from kb.prose import Block
from server.household.dangers import Panel
from server.web.frame import Frame, PhoneLink
from server.web.pages import Page


@dataclass(frozen=True, slots=True)
class Choice:
    """A large thing to press: its words, a hint under them, and where it leads."""

    words: str
    address: str
    hint: str = ""


@dataclass(frozen=True, slots=True)
class Told:
    """One answer already given, with the way back to its question."""

    question: str
    answer: str
    change: str


@dataclass(frozen=True, slots=True)
class Question:
    """One danger question among the others."""

    words: str
    body: tuple[Block, ...]
    yes: str


@dataclass(frozen=True, slots=True)
class Detail:
    """Something written on a home's page: where the stop tap is, when the next service is due."""

    name: str
    words: str


@dataclass(frozen=True, slots=True)
class StartPage(Page):
    """What is wrong? Search, common signs, a code."""

    template: ClassVar[str] = "start.html.j2"
    frame: Frame
    choices: tuple[Choice, ...]
    often: int
    how_tos: tuple[Choice, ...]
    appliance: str
    details: tuple[Detail, ...]
    gauge: str


@dataclass(frozen=True, slots=True)
class FindPage(Page):
    """What was found for somebody's words or for a code."""

    template: ClassVar[str] = "find.html.j2"
    frame: Frame
    words: str
    code: str
    danger: Panel | None
    unknown: str
    stop: tuple[str, ...]
    calm: tuple[str, ...]
    asks: str
    answers: tuple[Choice, ...]
    choices: tuple[Choice, ...]
    others: tuple[Choice, ...]


@dataclass(frozen=True, slots=True)
class DangerPage(Page):
    """All danger questions together, with one way on."""

    template: ClassVar[str] = "danger.html.j2"
    frame: Frame
    title: str
    intro: tuple[Block, ...]
    about: str
    questions: tuple[Question, ...]
    none_of_these: str
    alert: str


@dataclass(frozen=True, slots=True)
class StepPage(Page):
    """One thing to look at, do or ask."""

    template: ClassVar[str] = "step.html.j2"
    frame: Frame
    about: str
    title: str
    intro: tuple[Block, ...]
    body: tuple[Block, ...]
    own_words: tuple[Block, ...]
    own_words_of: str
    gauge: str
    asks_reading: bool
    here: str
    typed: str
    choices: tuple[Choice, ...]
    told: tuple[Told, ...]
    reference: str
    alert: str


@dataclass(frozen=True, slots=True)
class EndPage(Page):
    """Where a path stops: what to do now, whom to call, how soon."""

    template: ClassVar[str] = "end.html.j2"
    frame: Frame
    about: str
    title: str
    pace: str
    pace_words: str
    actions: tuple[tuple[str, str], ...]
    call_name: str
    call: PhoneLink | None
    also_firm: bool
    body: tuple[Block, ...]
    passages: tuple[Passage, ...]
    told: tuple[Told, ...]
    reference: str
    call_me: str
    call_me_hint: str
    sms: str
    alert: str


@dataclass(frozen=True, slots=True)
class KeyPage(Page):
    """Type the key from the card."""

    template: ClassVar[str] = "key.html.j2"
    frame: Frame
    typed: str
    alert: str


@dataclass(frozen=True, slots=True)
class CallPage(Page):
    """Ask to be called: whom to ring, when, and whether what was tried may go along."""

    template: ClassVar[str] = "call_me.html.j2"
    frame: Frame
    end: str
    back: str
    here: str
    quicker: PhoneLink | None
    quicker_when: str
    form: str
    name: str
    phone: str
    reaches: tuple[tuple[str, str], ...]
    reach: str
    consent: bool
    tried: tuple[Told, ...]
    card: bool
    kept_days: int
    wrong_phone: str
    alert: str


@dataclass(frozen=True, slots=True)
class ReceivedPage(Page):
    """What was asked has come: its reference, and when a call may be expected."""

    template: ClassVar[str] = "received.html.j2"
    frame: Frame
    title: str
    reference: str
    ending: str
    expect: tuple[str, ...]
    with_tried: bool
    back: str
    quicker: PhoneLink | None


PACE_WORDS: Mapping[str, str] = {
    "leave": "Act now, before anything else",
    "make-safe": "Make it safe now, then call",
    "today": "Call today",
    "three-days": "A visit within three working days",
    "routine": "Book a visit when it suits you",
    "advice": "No visit needed now",
}
"""How soon, in the household's words."""

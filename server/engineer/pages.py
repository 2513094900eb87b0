"""What each page about a handover record shows: one value a template."""

from dataclasses import dataclass
from typing import ClassVar

from server.staff.pages import StaffFrame
from server.web.pages import Page


@dataclass(frozen=True, slots=True)
class Link:
    """Words and where they lead."""

    words: str
    address: str
    more: str = ""


@dataclass(frozen=True, slots=True)
class OptionShown:
    """One choice or one tick; an address where an article explains it."""

    id: str
    words: str
    chosen: bool
    about: str = ""


@dataclass(frozen=True, slots=True)
class FieldShown:
    """A field as it stands: `when` is its condition in JSON, `worked` whether its text follows from others.

    `known` says that it stands as the register has it.
    """

    id: str
    kind: str
    words: str
    unit: str
    help: str
    options: tuple[OptionShown, ...]
    text: str
    worked: bool
    problem: str
    hidden: bool
    when: str
    aside: bool
    most: int
    keyboard: str
    needed: bool = False
    known: bool = False


@dataclass(frozen=True, slots=True)
class Apart:
    """A field of which the register says something else by now: what it says, and both as they are read."""

    field: str
    words: str
    register: str
    there: str
    here: str


@dataclass(frozen=True, slots=True)
class SaidShown:
    """What is said about figures, with the working; `answer` is what the engineer said to it.

    `next` is what to do about a question that waits, `way` leads to the field.
    """

    level: str
    text: str
    working: tuple[str, ...]
    answer: str = ""
    field: str = ""
    next: str = ""
    way: Link | None = None


@dataclass(frozen=True, slots=True)
class SectionShown:
    """A section with its fields, what is said there, and how much of it is done."""

    id: str
    title: str
    place: str
    address: str
    fields: tuple[FieldShown, ...]
    said: tuple[SaidShown, ...]
    filled: int
    of: int
    open: bool
    onward: Link


@dataclass(frozen=True, slots=True)
class RecordPage(Page):
    """A record being filled in: all sections, one of them open."""

    template: ClassVar[str] = "record.html.j2"
    frame: StaffFrame
    scripts: tuple[str, ...]
    address: str
    title: str
    key: str
    clock: int
    sections: tuple[SectionShown, ...]


@dataclass(frozen=True, slots=True)
class SignPage(Page):
    """What is missing, what wants an answer, and the name."""

    template: ClassVar[str] = "sign.html.j2"
    frame: StaffFrame
    scripts: tuple[str, ...]
    address: str
    title: str
    clock: int
    alert: str
    lacking: tuple[tuple[str, tuple[Link, ...]], ...]
    dangers: tuple[SaidShown, ...]
    apart: tuple[Apart, ...]
    questions: tuple[SaidShown, ...]
    outcome: str
    outcome_address: str
    unsafe: bool
    name: str
    seen: str


@dataclass(frozen=True, slots=True)
class Line:
    """A field of a signed record in words."""

    words: str
    text: str


@dataclass(frozen=True, slots=True)
class Part:
    """A section of a signed record."""

    title: str
    lines: tuple[Line, ...]
    said: tuple[SaidShown, ...]


@dataclass(frozen=True, slots=True)
class Added:
    """Words added after the signing."""

    words: str
    by: str
    at: str


@dataclass(frozen=True, slots=True)
class SignedPage(Page):
    """A signed record, what leads on from it, and what was added since."""

    template: ClassVar[str] = "signed.html.j2"
    frame: StaffFrame
    scripts: tuple[str, ...]
    address: str
    title: str
    key: str
    name: str
    by: str
    at: str
    fingerprint: str
    unaltered: bool
    unsafe: bool
    card: str
    home: str
    parts: tuple[Part, ...]
    added: tuple[Added, ...]
    token: str


@dataclass(frozen=True, slots=True)
class RefusedPage(Page):
    """Why there is no card of a home yet."""

    template: ClassVar[str] = "refused.html.j2"
    frame: StaffFrame
    reasons: tuple[str, ...]
    back: str


@dataclass(frozen=True, slots=True)
class OpenRecord:
    """A record that waits: what it is called, when it was begun, how far it is."""

    words: str
    address: str
    begun: str
    left: str


@dataclass(frozen=True, slots=True)
class FoundHome:
    """A home that a record can be begun for, and where it is."""

    key: str
    words: str
    where: str


@dataclass(frozen=True, slots=True)
class EngineerPage(Page):
    """The first page: records that wait, homes, articles, calculations."""

    template: ClassVar[str] = "engineer.html.j2"
    frame: StaffFrame
    scripts: tuple[str, ...]
    alert: str
    records: tuple[OpenRecord, ...]
    sought: str
    found: tuple[FoundHome, ...]
    settings: tuple[Link, ...]
    faults: tuple[Link, ...]
    others: tuple[Link, ...]

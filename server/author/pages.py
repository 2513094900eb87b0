"""What each page of the author's desk shows: one value a template."""

from dataclasses import dataclass
from typing import ClassVar

from kb.prose import Block
from server.web.pages import Page


@dataclass(frozen=True, slots=True)
class Around:
    """What stands around every page: its style sheets and script, what it was made from, and what was run on it."""

    stylesheet: str
    own_stylesheet: str
    script: str
    version: int
    checked: str
    proved: str


@dataclass(frozen=True, slots=True)
class Entry:
    """One file in a list: its title, what it is, its findings in words, and the address of its page if it has one."""

    title: str
    what: str
    findings: str
    wrong: bool
    address: str


@dataclass(frozen=True, slots=True)
class Told:
    """A finding, as `tundish check` tells it, and where its rule explains itself."""

    line: int
    rule: str
    found: str
    remedy: str
    address: str


@dataclass(frozen=True, slots=True)
class Drawing:
    """The tree for one audience, and the address of the picture alone."""

    name: str
    svg: str
    address: str


@dataclass(frozen=True, slots=True)
class Onward:
    """An answer in words, and where it leads in words."""

    words: str
    leads: str


@dataclass(frozen=True, slots=True)
class Spoken:
    """A step as a household reads it."""

    anchor: str
    title: str
    body: tuple[Block, ...]
    answers: tuple[Onward, ...]


@dataclass(frozen=True, slots=True)
class ListPage(Page):
    """Every article and range, with how much is wrong in each."""

    template: ClassVar[str] = "desk-list.html.j2"
    around: Around
    folder: str
    articles: tuple[Entry, ...]
    ranges: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class ArticlePage(Page):
    """One article: what is wrong in it, what its skeleton left unsaid, its trees, and its household part in words."""

    template: ClassVar[str] = "desk-article.html.j2"
    around: Around
    file: str
    title: str
    findings: tuple[Told, ...]
    unsaid: tuple[Told, ...]
    unread: bool
    drawings: tuple[Drawing, ...]
    intro: tuple[Block, ...]
    steps: tuple[Spoken, ...]
    card: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class RangePage(Page):
    """One range: what is wrong in it."""

    template: ClassVar[str] = "desk-range.html.j2"
    around: Around
    file: str
    title: str
    findings: tuple[Told, ...]


@dataclass(frozen=True, slots=True)
class RulePage(Page):
    """Why a rule exists, with its samples."""

    template: ClassVar[str] = "desk-rule.html.j2"
    around: Around
    name: str
    page: str


@dataclass(frozen=True, slots=True)
class LostPage(Page):
    """There is nothing at this address, or the desk failed."""

    template: ClassVar[str] = "desk-lost.html.j2"
    around: Around
    title: str
    next_step: str

"""What an article, a step, an answer, an end and a cause are."""

from base64 import b32encode
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from hashlib import blake2b
from typing import Final, Literal, TypeAlias

from kb.facts import GaugeMarks
from kb.findings import Place
from kb.header import Header
from kb.prose import Block, Target

HOUSEHOLD_HEADING: Final = "For the household"
CARD_HEADING: Final = "On the card"
CAUSES_HEADING: Final = "Likely causes"


class Audience(StrEnum):
    """Who may see a thing; whatever is not marked for the household is the engineer's."""

    HOUSEHOLD = "household"
    ENGINEER = "engineer"


class Pace(StrEnum):
    """How soon somebody must act, soonest first."""

    LEAVE = "leave"
    MAKE_SAFE = "make-safe"
    TODAY = "today"
    THREE_DAYS = "three-days"
    ROUTINE = "routine"
    ADVICE = "advice"


class Call(StrEnum):
    """Whom an end says to call."""

    FIRM = "firm"
    GAS = "gas"
    EMERGENCY = "emergency"
    SUPPLIER = "supplier"
    POWER_CUT = "power-cut"
    LANDLORD = "landlord"


Mark: TypeAlias = Literal["low", "aim", "high"] | float


@dataclass(frozen=True, slots=True)
class Bounds:
    """The readings an answer stands for, between two edges that are figures or a home's own marks.

    `floor` and `ceiling` are None where the answer is open to that side;
    `floor_in` and `ceiling_in` say whether the edge itself belongs to it.
    """

    floor: Mark | None
    floor_in: bool
    ceiling: Mark | None
    ceiling_in: bool

    def hold(self, reading: float, marks: GaugeMarks) -> bool:
        """Whether a reading lies within, for a home with these marks."""
        if self.floor is not None:
            floor = marks.bar(self.floor)
            if reading < floor or (reading == floor and not self.floor_in):
                return False
        if self.ceiling is not None:
            ceiling = marks.bar(self.ceiling)
            if reading > ceiling or (reading == ceiling and not self.ceiling_in):
                return False
        return True


@dataclass(frozen=True, slots=True)
class Answer:
    """One way on from a step.

    `token` is three characters made from the words and the step, so that an answer that was changed or
    removed is noticed in an old trail and never taken for another.
    `fact_value` is the value of the step's fact that this answer stands for.
    """

    text: str
    target: Target
    token: str
    place: Place
    bounds: Bounds | None = None
    fact_value: str | None = None


@dataclass(frozen=True, slots=True)
class Limit:
    """How often a step may be passed: at most so often, counting `action` wherever it is tried, then `then`."""

    at_most: int
    then: Target | None
    action: str | None


@dataclass(frozen=True, slots=True)
class Step:
    """Something to look at, do or ask, with its answers."""

    article: str
    anchor: str
    title: str
    audience: Audience
    body: tuple[Block, ...]
    answers: tuple[Answer, ...]
    place: Place
    fact: str | None = None
    reading: str | None = None
    limit: Limit | None = None

    @property
    def target(self) -> Target:
        """Where this step stands."""
        return Target(self.article, self.anchor)


@dataclass(frozen=True, slots=True)
class Passage:
    """Words that several ends share, such as how to keep warm; with a fact, for the homes where it has these values."""

    article: str
    anchor: str
    title: str
    audience: Audience
    body: tuple[Block, ...]
    place: Place
    fact: str | None = None
    values: tuple[str, ...] = ()

    @property
    def target(self) -> Target:
        """Where this passage stands."""
        return Target(self.article, self.anchor)

    def suits(self, facts: Mapping[str, str]) -> bool:
        """Whether nothing known about a home speaks against showing it."""
        known = facts.get(self.fact or "", "")
        return not known or known in self.values


@dataclass(frozen=True, slots=True)
class End:
    """Where a path stops: what to do now, whom to call, how soon, and the passages it shares with other ends."""

    article: str
    anchor: str
    title: str
    audience: Audience
    body: tuple[Block, ...]
    place: Place
    pace: Pace
    call: Call
    emergency: str | None = None
    shares: tuple[Target, ...] = ()

    @property
    def target(self) -> Target:
        """Where this end stands."""
        return Target(self.article, self.anchor)


@dataclass(frozen=True, slots=True)
class Evidence:
    """An answer that makes a cause `strength` times likelier, or, pointing away, as many times less likely."""

    step: Target
    answer: str
    strength: float
    place: Place


@dataclass(frozen=True, slots=True)
class Cause:
    """One likely cause with its share in percent, what to bring, and the evidence for and against it."""

    name: str
    share: float
    bring: tuple[str, ...]
    points_to: tuple[Evidence, ...]
    points_away: tuple[Evidence, ...]
    place: Place


@dataclass(frozen=True, slots=True)
class Article:
    """One markdown file, read: its header, its steps, ends or passages, its causes, its lines for the card."""

    id: str
    file: str
    header: Header
    intro: tuple[Block, ...]
    notes: tuple[Block, ...]
    steps: tuple[Step, ...]
    ends: tuple[End, ...]
    passages: tuple[Passage, ...]
    causes: tuple[Cause, ...]
    card: tuple[Block, ...]

    @property
    def title(self) -> str:
        """What the article is called, in the household's words."""
        return self.header.title

    @property
    def parts(self) -> tuple[Step | End | Passage, ...]:
        """Everything in it that has a heading of its own and an audience."""
        return (*self.steps, *self.ends, *self.passages)

    def first(self, audience: Audience) -> Step | None:
        """The step a walk by this audience begins with, if it has any."""
        return next((step for step in self.steps if step.audience is audience), None)

    def suits(self, facts: Mapping[str, str]) -> bool:
        """Whether nothing known about a home speaks against offering this article."""
        return all(facts.get(fact, values[0]) in values for fact, values in self.header.applies.items())


_LIKE_EACH_OTHER: Final = str.maketrans("ILOU", "0189")


def token_of(article: str, anchor: str, slug: str) -> str:
    """Three characters that stand for an answer in a trail, made from its words and its step."""
    digest = blake2b(f"{article}#{anchor}>{slug}".encode(), digest_size=4).digest()
    return b32encode(digest).decode()[:3].translate(_LIKE_EACH_OTHER).lower()

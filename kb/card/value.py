"""What is on a card, before anything is said about how it looks?"""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from kb.card.sizes import Size
from kb.facts import GaugeMarks
from kb.logo import Logo


@dataclass(frozen=True, slots=True)
class Style:
    """In which size a card is wanted, and with which logo of the firm's."""

    size: Size = "a6"
    logo: Logo | None = None


@dataclass(frozen=True, slots=True)
class Setting:
    """How one side is set: the size of its words in points, and the room between its parts beyond the least."""

    size: float
    between: float = 0.0


@dataclass(frozen=True, slots=True)
class Reason:
    """Why a card is not printed: which field, what was found there, and what to do."""

    field: str
    found: str
    remedy: str

    def __str__(self) -> str:
        return f"{self.field}: {self.found} {self.remedy}"


@dataclass(frozen=True, slots=True)
class Refused:
    """There is no card for this home yet, for every one of these reasons."""

    reasons: tuple[Reason, ...]


class Sign(StrEnum):
    """What ISO 3864 calls the sign before a line: do not, go this way, you must."""

    PROHIBITION = "prohibition"
    SAFE = "safe"
    MANDATORY = "mandatory"


@dataclass(frozen=True, slots=True)
class DangerLine:
    """One thing to do in danger, and the sign that belongs to it."""

    sign: Sign
    words: str


@dataclass(frozen=True, slots=True)
class Ring:
    """An emergency number, when to ring it, and who answers."""

    when: str
    number: str
    who: str


@dataclass(frozen=True, slots=True)
class Danger:
    """The danger panel: what to do at once, in order, and the numbers that were confirmed for this place.

    `calls` holds one number where both kinds of emergency have the same.
    """

    title: str
    lines: tuple[DangerLine, ...]
    calls: tuple[Ring, ...]
    last: str


@dataclass(frozen=True, slots=True)
class Firm:
    """Who is called for everything else: the first phone large, its other phones small.

    `colour` is the firm's own, for its name alone; the safety colours keep their meaning.
    """

    invitation: str
    name: str
    phone: str
    also: tuple[str, ...]
    hours: tuple[str, ...]
    registration: str
    colour: str
    logo: Logo | None


@dataclass(frozen=True, slots=True)
class Fault:
    """A common fault in a few lines, and the article they are from."""

    article: str
    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Rule:
    """A titled handful of lines."""

    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Spot:
    """Where something is that a household may have to find."""

    id: str
    label: str
    where: str


@dataclass(frozen=True, slots=True)
class Card:
    """Everything on the card of one home, in the order it is read; it holds nothing about people.

    `marks` is None for a home without a pressure gauge; `gauge` says what to aim for, or that there is none.
    `page` is the address of the home's page; `page_typed` is the same in the parts a person types.
    `front` and `back` are found when the card is fitted.
    """

    size: Size
    language: str
    title: str
    demo: str
    danger: Danger
    firm: Firm
    marks: GaugeMarks | None
    gauge: Rule
    page: str
    page_typed: tuple[str, str]
    page_invitation: str
    first: str
    faults: tuple[Fault, ...]
    reset: Rule
    never: Rule
    places: tuple[Spot, ...]
    foot: tuple[str, ...]
    front: Setting
    back: Setting

    def texts(self) -> Iterator[tuple[str, str]]:
        """Every text that somebody wrote for this home, firm or library, with the field it comes from."""
        yield "firm.name", self.firm.name
        yield "firm.registration", self.firm.registration
        for phone in (self.firm.phone, *self.firm.also):
            yield "firm.phones", phone
        yield "firm.site", self.page
        for line in self.danger.lines:
            yield "region.orders.gas-smell", line.words
        yield "region.orders.gas-smell", self.danger.last
        for call in self.danger.calls:
            yield "region.orders.gas-smell", call.when
            yield "firm.emergency", call.number
            yield "region.numbers", call.who
        for fault in self.faults:
            for words in (fault.title, *fault.lines):
                yield f"articles: {fault.article}", words
        for words in self.reset.lines:
            yield "range.reset", words
        for spot in self.places:
            yield f"home.places.{spot.id}", spot.where
        for words in self.foot:
            yield "home.appliance", words

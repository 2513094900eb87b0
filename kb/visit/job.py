"""What is kept of a visit: everything that was ever written into it, and how it was closed?"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from types import MappingProxyType
from typing import Final

from kb.handover.record import Entry, texts
from kb.prose import Target

ANSWER: Final = "answer:"
"""What the field of an answer to one of the engineer's checks begins with; behind it stands the step."""

READING: Final = "reading:"
"""What the field of a reading begins with; behind it stands what whoever wrote it made up."""

DANGER: Final = "danger"
"""The field that says that none of the danger questions was answered yes."""

CLOSE: Final = "close"
"""The field whose entry asks for the job to be closed as it stands."""

LONGEST_FIELD: Final = 160

FETCHES: Final[Mapping[str, str]] = MappingProxyType(
    {"me": "The engineer gets it", "office": "The office orders it", "sent": "It is sent to the home"}
)
"""Who gets a part that a job waits for."""


@dataclass(frozen=True, slots=True)
class Closed:
    """How a job was closed.

    `phone` says whether the phone could have solved it, `predicted` which causes were likeliest before anybody went,
    `report_by` the day by which something unsafe must have been reported, where it must.
    `minutes` are those on site, `travel` those on the road; `card_words` say what of the card must change.
    """

    at: datetime
    by: str
    cause: str
    outcome: str
    phone: str
    words: str = ""
    minutes: int | None = None
    predicted: tuple[str, ...] = ()
    taken: tuple[str, ...] = ()
    used: tuple[str, ...] = ()
    unsafe: str = ""
    report_by: date | None = None
    travel: int | None = None
    charge: str = ""
    card: str = ""
    card_words: str = ""


@dataclass(frozen=True, slots=True)
class Return:
    """Why somebody comes back: which job waits, the call it all began with, the part, who fetches it, by when."""

    job: str
    call: str = ""
    part: str = ""
    who: str = ""
    ready: date | None = None


@dataclass(frozen=True, slots=True)
class Job:
    """One visit: the home's key and the call it came from, where there are any, and the fault's article.

    `by` is who has it, nobody for a second visit that waits to be taken; `returns` says why it is a second one.
    `range` is that of the appliance; `entries` stand in the order they were written.
    """

    id: str
    article: str
    begun: datetime
    by: str
    key: str = ""
    call: str = ""
    range: str = ""
    entries: tuple[Entry, ...] = ()
    closed: Closed | None = None
    returns: Return | None = None

    @property
    def told_in(self) -> str:
        """The call in which it was told, of a second visit that of the first."""
        return self.call or (self.returns.call if self.returns else "")

    @property
    def clock(self) -> int:
        """The highest sequence so far."""
        return max((entry.sequence for entry in self.entries), default=0)

    @property
    def texts(self) -> Mapping[str, str]:
        """What stands in each field by now."""
        return texts(self.entries)


def field_of(step: Target) -> str:
    """The field of the answer to a step."""
    return f"{ANSWER}{step.article}#{step.anchor}"

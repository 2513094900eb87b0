"""What is kept of a visit: everything that was ever written into it, and how it was closed?"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
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


@dataclass(frozen=True, slots=True)
class Closed:
    """How a job was closed.

    `phone` says whether the phone could have solved it, `predicted` which causes were likeliest before anybody went,
    `report_by` the day by which something unsafe must have been reported, where it must.
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


@dataclass(frozen=True, slots=True)
class Job:
    """One visit: the home's key and the call it came from, where there are any, and the fault's article.

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

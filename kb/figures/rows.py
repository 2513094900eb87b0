"""What is counted: finished calls and closed jobs, one by one and in groups that are alike.

None of it tells who anybody is.
"""

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Final

from kb.figures.weeks import Week

FIRST_MINUTE: Final = 60
"""Within so many seconds of its beginning every call's danger questions are to be answered."""

RELAPSE: Final = timedelta(hours=48)
"""A call that was solved by phone has come back if they ring again so soon (common practice)."""

RECALL: Final = timedelta(days=28)
"""A job was not fixed if the same cause brings somebody back so soon (common practice)."""

FROST: Final = 0.0
"""At or under so many degrees outdoors it was cold."""


@dataclass(frozen=True, slots=True)
class Stop:
    """A step at which a walk went no further; `alone` where the household was by itself, and then rang."""

    step: str
    alone: bool


@dataclass(frozen=True, slots=True)
class CallRow:
    """One finished call.

    `danger` is after how many seconds the danger questions were all answered, or one with yes.
    `stuck` is the danger question that took longest, and `stuck_for` how many seconds; None if it was never answered.
    `back` says that they were asked and it had not lasted; a call about the same home is seen by itself.
    """

    id: str
    began: datetime
    closed: datetime
    week: Week
    category: str
    how: str
    home: int | None = None
    danger: float | None = None
    back: bool = False
    pace: str = ""
    outdoor: float | None = None
    stops: tuple[Stop, ...] = ()
    upto: int = 0
    stuck: str = ""
    stuck_for: float | None = None


@dataclass(frozen=True, slots=True)
class SlowCall:
    """A call whose danger questions were not over within the first minute: when, after how long, and stuck where.

    `danger` and `stuck_for` are None where the questions were never all answered.
    """

    began: datetime
    danger: float | None
    stuck: str
    stuck_for: float | None


@dataclass(frozen=True, slots=True)
class JobRow:
    """One closed job; `expected` are the likely causes as the engineer set off, the likeliest first.

    `fixed` says that it was fixed at the first visit; whether it lasts is seen from later jobs at the home.
    `returns` says that it is a second visit to what another job left: no first one, whatever came of it.
    """

    id: str
    closed: datetime
    week: Week
    category: str
    cause: str
    home: int | None = None
    expected: tuple[str, ...] = ()
    fixed: bool = False
    returns: bool = False
    minutes: int | None = None
    taken: frozenset[str] = frozenset()
    used: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class CallsAlike:
    """The calls of a week and category.

    `soon` had danger answered in the first minute; `settled` were solved by phone so long ago that one can say
    whether it lasted, and `back` of them had not.
    """

    week: Week
    category: str
    calls: int
    solved: int = 0
    settled: int = 0
    back: int = 0
    soon: int = 0
    coldest: float | None = None


@dataclass(frozen=True, slots=True)
class JobsAlike:
    """The jobs of a week; `settled` are so long ago that one can say whether they lasted, `lasting` did at once.

    A return for the same cause is no first visit, and is left out of both.

    `minutes` is what those took together whose time is known, `timed` how many they are.
    """

    week: Week
    jobs: int
    settled: int = 0
    lasting: int = 0
    timed: int = 0
    minutes: int = 0


@dataclass(frozen=True, slots=True)
class StopsAlike:
    """How often walks went no further at a step: by themselves, or with the desk."""

    step: str
    alone: int
    desk: int


@dataclass(frozen=True, slots=True)
class PartsAlike:
    """How often a part was taken along, was used of those, and was wanted but not there."""

    part: str
    taken: int
    used: int
    wanted: int


@dataclass(frozen=True, slots=True)
class CausesAlike:
    """Jobs with the same expected first and second cause and the same that it was."""

    first: str
    second: str
    actual: str
    jobs: int


@dataclass(frozen=True, slots=True)
class Caller:
    """A home, and how often it called in the last year."""

    key: str
    appliance: str
    calls: int


@dataclass(frozen=True, slots=True)
class Counted:
    """Everything that the pictures show; `homes` is how many called in the last year.

    `overdue` counts services by how late they are, in the order of `LATE`; `serviced` all that have a date.
    """

    calls: tuple[CallsAlike, ...] = ()
    stops: tuple[StopsAlike, ...] = ()
    jobs: tuple[JobsAlike, ...] = ()
    parts: tuple[PartsAlike, ...] = ()
    causes: tuple[CausesAlike, ...] = ()
    callers: tuple[Caller, ...] = ()
    homes: int = 0
    overdue: tuple[int, ...] = ()
    serviced: int = 0


LATE: Final = (
    (31, "up to a month"),
    (92, "one to three months"),
    (183, "three to six months"),
    (366, "six months to a year"),
    (None, "over a year"),
)
"""How many days late a service is at most, and how that is said."""

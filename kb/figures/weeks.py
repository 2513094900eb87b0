"""Which week is a day in, and which weeks does somebody want to look at?

Weeks are those of ISO 8601: they begin on Monday, and a year's first is the one with its first Thursday.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from typing import Final

_LONG: Final = 104
_MONTH: Final = 4
_QUARTER: Final = 13


@dataclass(frozen=True, slots=True, order=True)
class Week:
    """A week, by the number of Mondays since the calendar's first day, which was one."""

    number: int

    @classmethod
    def of(cls, day: date) -> "Week":
        """The week a day is in."""
        return cls((day.toordinal() - 1) // 7)

    @property
    def monday(self) -> date:
        """The day it begins."""
        return date.fromordinal(self.number * 7 + 1)

    def __str__(self) -> str:
        year, week, _ = self.monday.isocalendar()
        return f"{year}-W{week:02}"


class Period(StrEnum):
    """How far back somebody wants to look."""

    TWELVE_WEEKS = "12-weeks"
    YEAR = "year"
    ALL = "all"


PERIODS: Final = {
    Period.TWELVE_WEEKS: "The last 12 weeks",
    Period.YEAR: "The last year",
    Period.ALL: "Everything",
}
"""The periods in words."""

_WEEKS: Final = {Period.TWELVE_WEEKS: 12, Period.YEAR: 52}


@dataclass(frozen=True, slots=True)
class Block:
    """Some weeks that are counted together."""

    first: Week
    weeks: int

    @property
    def words(self) -> str:
        """Its first day, and how long it is."""
        monday = self.first.monday
        length = "week" if self.weeks == 1 else f"{self.weeks} weeks"
        return f"{length} from {monday.day} {monday:%b %Y}"


@dataclass(frozen=True, slots=True)
class Span:
    """The weeks that are looked at, the last one counted too; the last may not be over."""

    first: Week
    last: Week

    @property
    def weeks(self) -> tuple[Week, ...]:
        """Every week."""
        return tuple(map(Week, range(self.first.number, self.last.number + 1)))

    def blocks(self, most: int = 13) -> tuple[Block, ...]:
        """The weeks in blocks for what needs many cases: weeks, fours or quarters, counted back from the last."""
        weeks = len(self.weeks)
        length = 1 if weeks <= most else _MONTH if weeks <= _LONG else _QUARTER
        ends = range(self.last.number, self.first.number - 1, -length)
        starts = [max(end - length + 1, self.first.number) for end in ends]
        return tuple(Block(Week(a), b - a + 1) for a, b in zip(reversed(starts), reversed(ends), strict=True))


def span_of(period: Period, today: date, earliest: Week | None) -> Span:
    """The weeks of a period up to today, and never before anything was counted."""
    now = Week.of(today)
    begin = Week(now.number - _WEEKS[period] + 1) if period in _WEEKS else now
    if earliest is not None:
        begin = min(earliest, now) if period is Period.ALL else max(begin, min(earliest, now))
    return Span(begin, now)


def ticks(weeks: Sequence[Week], most: int = 4) -> tuple[tuple[int, str], ...]:
    """Where to write a date along weeks, and which: the first week of a month, at most so many of them."""
    months = [
        (index, week.monday)
        for index, week in enumerate(weeks)
        if (week.monday - timedelta(days=7)).month != week.monday.month
    ]
    if not months:
        return ((0, day_words(weeks[0].monday)),) if weeks else ()
    shown = months[:: -(-len(months) // most)]
    if len(weeks) < _WEEKS[Period.YEAR]:
        return tuple((index, day_words(day)) for index, day in shown)
    years = [None, *(day.year for _, day in shown)]
    return tuple(
        (index, f"{day:%b}" if day.year == before else f"{day:%b %Y}")
        for (index, day), before in zip(shown, years, strict=False)
    )


def day_words(day: date) -> str:
    """A day as it stands under a picture."""
    return f"{day.day} {day:%b}"

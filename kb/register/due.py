"""What falls due at a home, and in which month?"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import Final

DUE: Final[Mapping[str, str]] = MappingProxyType(
    {
        "service": "Service due",
        "alarm": "Alarm to be replaced",
        "warranty": "Warranty ends",
        "review": "Ask again what somebody needs",
        "consent": "Consent over twelve months old",
    }
)
"""Everything that falls due, in the order it is shown."""

NEVER_OVERDUE: Final = ("warranty", "consent")
"""What has passed once its month has: nobody can still do it, or it is asked with the review."""


@dataclass(frozen=True, slots=True)
class Due:
    """One thing that falls due: its kind, the home by its key and number, the day, what it is, and where.

    `person` is the number of whom it is about, None for what is about the home.
    """

    kind: str
    key: str
    home: int
    day: date
    what: str
    lines: tuple[str, ...] = ()
    town: str = ""
    postcode: str = ""
    person: int | None = None


@dataclass(frozen=True, slots=True, order=True)
class Month:
    """A month of a year."""

    year: int
    number: int

    def __str__(self) -> str:
        """As 2026-11."""
        return f"{self.year:04d}-{self.number:02d}"

    @property
    def first(self) -> date:
        """Its first day."""
        return date(self.year, self.number, 1)

    def after(self, months: int) -> "Month":
        """The month so many months later, or earlier for a negative number."""
        months += self.year * 12 + self.number - 1
        return Month(months // 12, months % 12 + 1)


def month_of(day: date) -> Month:
    """The month a day lies in."""
    return Month(day.year, day.month)


def read_month(written: str) -> Month | None:
    """A month as 2026-11, or None."""
    year, _, number = written.strip().partition("-")
    plain = year.isascii() and number.isascii() and year.isdigit() and number.isdigit()
    if not plain or len(year) != 4 or not 1 <= int(number) <= 12 or not 1900 <= int(year) < 2100:
        return None
    return Month(int(year), int(number))

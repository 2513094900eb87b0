"""What must a firm keep although somebody asks to be forgotten, under which rule, and until when?"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import Final


@dataclass(frozen=True, slots=True)
class Kept:
    """One sort of paper that outlives a request: what it is, the rule, and for how many months it is kept."""

    what: str
    rule: str
    months: int


KEPT_BY_LAW: Final[Mapping[str, Kept]] = MappingProxyType(
    {
        "gas-safety-record": Kept(
            "record of a landlord's gas safety check",
            "Gas Safety (Installation and Use) Regulations 1998, regulation 36(3)(c): two years, or until two further "
            "checks were made",
            24,
        ),
        "invoice": Kept(
            "invoice",
            # From memory: six years from the end of the accounting period, so nearly seven from an invoice early in it.
            "Value Added Tax Act 1994, schedule 11, paragraph 6, and Finance Act 1998, schedule 18, paragraph 21: six "
            "years from the end of the accounting period",
            84,
        ),
        "unsafe-notice": Kept(
            "notice of an unsafe situation",
            # From memory: regulation 12 asks for three years for what was reported under regulation 11.
            "Reporting of Injuries, Diseases and Dangerous Occurrences Regulations 2013, regulation 12: three years",
            36,
        ),
    }
)
"""Every sort of paper that is kept by law. Great Britain and, for tax, the United Kingdom."""


def kept_until(kind: str, made: date) -> date:
    """The day after which a paper of a kind need no longer be kept."""
    months = made.month - 1 + KEPT_BY_LAW[kind].months
    year, month = made.year + months // 12, months % 12 + 1
    day = made.day if (month, made.day) != (2, 29) or _leap(year) else 28
    return date(year, month, day)


def _leap(year: int) -> bool:
    return year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)

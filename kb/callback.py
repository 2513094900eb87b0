"""What does a household ask that asks us to call, can we ring that number, and when may it expect us?"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from enum import StrEnum
from hashlib import blake2b
from itertools import islice
from typing import Final, TypeAlias

from kb import hours, numbers
from kb.article import Call, End, Pace
from kb.firm import Firm
from kb.keys import ALPHABET

LONGEST_NAME: Final = 60
LONGEST_NUMBER: Final = 30

SOON: Final = frozenset({Pace.MAKE_SAFE, Pace.TODAY})
"""Paces for which ringing is quicker than waiting for a call."""

_LITTLE: Final = timedelta(hours=1)
"""With less of the opening left, nobody can be sure to be called within it."""

_REFERENCE: Final = 6
_PHONE: Final = re.compile(r"[0-9+()\-./\s\u2010-\u2015]+")


Stretch: TypeAlias = tuple[datetime, datetime]
"""A beginning and an end, in the firm's zone."""


class Reach(StrEnum):
    """When somebody can be reached."""

    ANY = "any"
    MORNING = "morning"
    AFTERNOON = "afternoon"
    EVENING = "evening"


PARTS: Final[Mapping[Reach, tuple[int, int]]] = {
    Reach.ANY: (0, 24 * 60),
    Reach.MORNING: (0, 12 * 60),
    Reach.AFTERNOON: (12 * 60, 17 * 60),
    Reach.EVENING: (17 * 60, 24 * 60),
}
"""The part of a day that each stands for, in minutes since midnight."""

REACH_WORDS: Final[Mapping[Reach, str]] = {
    Reach.ANY: "Any time you are open",
    Reach.MORNING: "In the morning, before 12",
    Reach.AFTERNOON: "In the afternoon, 12 to 5",
    Reach.EVENING: "In the evening, after 5",
}
"""The same in the household's words."""


@dataclass(frozen=True, slots=True)
class WrongNumber:
    """Why a number cannot be rung: what was expected, what was found, and what to do."""

    expected: str
    found: str
    next_step: str

    def __str__(self) -> str:
        """All three, as a household reads them."""
        return f"We need {self.expected}. {self.found} {self.next_step}"


@dataclass(frozen=True, slots=True)
class Expectation:
    """When a call may be expected.

    `first` is the stretch of opening hours in which it comes, `then` another one where it may not come in the first.
    With `promised`, the firm has said by when it calls, and that is the end of `first`.
    """

    first: Stretch
    then: Stretch | None
    promised: bool

    def over(self, now: datetime) -> bool:
        """Whether the time has passed in which the call was to come."""
        return now >= (self.then or self.first)[1]


def offers_call(end: End) -> bool:
    """Whether an end may offer to call the household: never one of danger, where each minute counts."""
    return end.pace is not Pace.LEAVE and end.emergency is None and end.call is not Call.EMERGENCY


def offered(firm: Firm) -> tuple[Reach, ...]:
    """The choices of when to be reached: those in which the firm is open for a quarter of an hour or more."""
    openings = [opening for day in firm.hours.values() for opening in day]

    def open_in(part: tuple[int, int]) -> bool:
        return any(min(each.closes, part[1]) - max(each.opens, part[0]) >= 15 for each in openings)

    return tuple(reach for reach, part in PARTS.items() if reach is Reach.ANY or open_in(part))


def number_to_ring(typed: str, firm: Firm, never: Iterable[str] = ()) -> str | WrongNumber:
    """The number that somebody typed, as ITU-T E.164 writes it, or why the firm cannot ring it.

    `never` are numbers that are no household's; the firm's own are among them anyway.
    """
    whole = "a phone number with all its digits"
    written = " ".join(typed.split())[:LONGEST_NUMBER]
    if not written:
        return WrongNumber(whole, "Nothing was typed.", "Type the number we shall ring.")
    again = "Type it again, the area code first."
    found = f"We found “{written}”."
    if not _PHONE.fullmatch(written) or numbers.is_short(written):
        return WrongNumber(whole, found, again)
    try:
        number = numbers.dialled(written, firm.region)
    except numbers.UndialableNumber:
        return WrongNumber(whole, found, again)
    if not numbers.is_whole(number):
        return WrongNumber(whole, found, again)
    others = (*never, *(phone.number for phone in firm.phones), *(each.number for each in firm.emergency))
    if numbers.costs_extra(number) or number in {numbers.dialled(other, firm.region) for other in others}:
        return WrongNumber("a number of your own", f"{found} That is not one.", "Type your home or mobile number.")
    return number


def reference_of(sent: str) -> str:
    """A short reference to read out, for what was sent under this id: six characters, none taken for another."""
    number = int.from_bytes(blake2b(sent.encode(), digest_size=8).digest(), "big")
    base = len(ALPHABET)
    code = "".join(ALPHABET[number // base**place % base] for place in range(_REFERENCE))
    return f"{code[:3]}-{code[3:]}"


def expect(firm: Firm, pace: Pace, reach: Reach, asked: datetime) -> Expectation | None:
    """When a call that was asked for at this moment may be expected; None where the firm is never open then.

    It never lies outside the firm's hours, and it is by a certain time only where the firm itself said so.
    """
    coming = hours.stretches(firm.hours, firm.clock, asked, PARTS[reach])
    within = firm.answers_within.get(pace)
    if within is not None:
        return _promised(coming, timedelta(minutes=within))
    two = list(islice(coming, 2))
    if not two:
        return None
    sure = pace in SOON and _length(two[0]) >= _LITTLE
    return Expectation(two[0], two[1] if len(two) == 2 and not sure else None, promised=False)


def _promised(coming: Iterator[Stretch], within: timedelta) -> Expectation | None:
    """By when a call comes for which the firm takes at most so much of its opening hours."""
    last = None
    for last in coming:
        if within <= _length(last):
            by = (last[0].astimezone(UTC) + within).astimezone(last[0].tzinfo)
            return Expectation((last[0], by), None, promised=True)
        within -= _length(last)
    return Expectation(last, None, promised=False) if last else None


def _length(stretch: Stretch) -> timedelta:
    # Two times of one zone differ by the wall clock, which runs backwards once a year: subtract in UTC.
    return stretch[1].astimezone(UTC) - stretch[0].astimezone(UTC)

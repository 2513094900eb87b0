"""Who belongs to a home, how are they reached, and what do they need from whoever comes?"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import Final

from kb import numbers
from kb.register.mistakes import Mistake

NEEDS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "time-at-the-door": "needs extra time at the door",
        "no-phone": "cannot hear on the phone",
        "read-out": "needs things read out or in large print",
        "spoken-for": "wants somebody else to speak for them",
        "young-child": "has a baby or young child at home",
        "over-65": "is over 65",
        "power": "needs power for equipment",
        "warmth": "must not be without heating for long",
    }
)
"""Everything that may be noted about what a person needs: the need in plain words, never the reason for it."""

ROLES: Final[Mapping[str, str]] = MappingProxyType(
    {
        "lives-here": "lives here",
        "landlord": "is the landlord",
        "agent": "lets the home for the landlord",
        "contact": "is to be reached for those who live here",
    }
)
"""How a person belongs to a home."""


@dataclass(frozen=True, slots=True)
class Need:
    """What a person needs, the day they said it may be noted, and the day they last said it still holds."""

    kind: str
    consented: date
    reviewed: date | None = None


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody to do with a home; `phones` are in E.164, and `id` is the store's, None until it was written."""

    name: str
    role: str = "lives-here"
    phones: tuple[str, ...] = ()
    needs: tuple[Need, ...] = ()
    id: int | None = None


def review_due(need: Need) -> date:
    """The day a need must be asked about again: twelve months after it was last said."""
    said = max(need.consented, need.reviewed or need.consented)
    last_of_february = (said.month, said.day) == (2, 29)
    return said.replace(year=said.year + 1, day=28 if last_of_february else said.day)


def read_phone(written: str, region: str) -> str | Mistake:
    """A phone number as anybody writes it, in E.164.

    It need only be possible, since numbers reserved for fiction are not in use.
    """
    expected = "a whole phone number"
    if numbers.is_short(written):
        return Mistake("phone", expected, repr(written), "Write it with its area's code.")
    try:
        return numbers.dialled(written, region)
    except numbers.UndialableNumber:
        return Mistake("phone", expected, repr(written), "Write it as it is dialled, or with + and the country's code.")

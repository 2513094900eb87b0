"""Which faults may a display mean that shows what somebody typed?"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import IntEnum
from typing import Final

from kb.appliance import Code, Range

_BETWEEN: Final = re.compile(r"(?<![0-9])[.,]|[.,](?![0-9])|[^0-9A-Z.,]+")
_LEADING_ZEROS: Final = re.compile(r"(?<![0-9])0+(?=[0-9])")
_LONGEST: Final = 40


class Certainty(IntEnum):
    """How sure it is that a code is the one meant; higher is surer."""

    ALIKE = 1
    """The same but for its leading noughts, which a display may leave dark."""

    SAME = 2
    """The same, whatever its case and separators."""


@dataclass(frozen=True, slots=True)
class Reading:
    """One way to take what was typed: a code of a range, and the category of fault it belongs to."""

    code: Code
    range: Range
    category: str
    certainty: Certainty


def normalise(typed: str) -> str:
    """A code's letters and digits in upper case, without what stands between them.

    A point between two digits stays: 1.2 is a gauge's reading, and not the code 12.
    """
    return _BETWEEN.sub("", typed.upper()) if len(typed) <= _LONGEST else ""


def candidates(typed: str, ranges: Iterable[Range]) -> tuple[Reading, ...]:
    """Every code of these ranges that what was typed may mean, the surest first."""
    sought = normalise(typed)
    readings = list(_readings(sought, ranges)) if sought else []
    return tuple(sorted(readings, key=lambda reading: (-reading.certainty, reading.range.id, reading.code.code)))


def _readings(sought: str, ranges: Iterable[Range]) -> Iterator[Reading]:
    for family in ranges:
        for code in family.codes:
            certainty = _certainty(sought, normalise(code.code))
            if certainty is not None:
                yield Reading(code, family, code.category, certainty)


def _certainty(sought: str, code: str) -> Certainty | None:
    if sought == code:
        return Certainty.SAME
    return Certainty.ALIKE if _LEADING_ZEROS.sub("", sought) == _LEADING_ZEROS.sub("", code) else None

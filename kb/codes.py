"""Which faults may a display mean that shows what somebody typed?"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import IntEnum
from typing import Final

from kb.appliance import Code, Display, Range
from kb.segments import apart, upside_down

_BETWEEN: Final = re.compile(r"(?<![0-9])[.,]|[.,](?![0-9])|[^0-9A-Z.,]+")
_LEADING_ZEROS: Final = re.compile(r"(?<![0-9])0+(?=[0-9])")
_CLOCK: Final = re.compile(r"([01]?[0-9]|2[0-3]):[0-5][0-9]")
_PRESSURE: Final = re.compile(r"([0-3][.,][0-9]{1,2})(?: ?bar)?", re.IGNORECASE)
_TEMPERATURE: Final = re.compile(r"([0-9]{2})(?: ?(?:°|°?c|deg(?:rees)?))?", re.IGNORECASE)
_LONGEST: Final = 40


class Certainty(IntEnum):
    """How sure it is that a code is the one meant; higher is surer."""

    UPSIDE_DOWN = 1
    """The same, read from the other side, as from under a boiler on a wall."""

    ONE_SEGMENT = 2
    """The same but for one segment of the display that is dark, or was taken for lit."""

    LOOKS_THE_SAME = 3
    """Another character that a seven-segment display shows with the same shape."""

    ALIKE = 4
    """The same but for its leading noughts, which a display may leave dark."""

    SAME = 5
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


def no_code(typed: str) -> str | None:
    """What a display may show that is no code: a pressure, a temperature or the time; None if it can be none of them.

    The spans are what a domestic boiler shows in ordinary use (common practice).
    """
    written = typed.strip()
    if _CLOCK.fullmatch(written):
        return "the time of day"
    if found := _PRESSURE.fullmatch(written):
        return f"the water pressure, {found[1].replace(',', '.')} bar"
    if (found := _TEMPERATURE.fullmatch(written)) and 20 <= int(found[1]) <= 85:
        return f"the water temperature, {found[1]} degrees"
    return None


def candidates(typed: str, ranges: Iterable[Range]) -> tuple[Reading, ...]:
    """Every code of these ranges that what was typed may mean, the surest first."""
    sought = normalise(typed)
    readings = list(_readings(sought, ranges)) if sought else []
    return tuple(sorted(readings, key=lambda reading: (-reading.certainty, reading.range.id, reading.code.code)))


def _readings(sought: str, ranges: Iterable[Range]) -> Iterator[Reading]:
    for family in ranges:
        for code in family.codes:
            certainty = _certainty(sought, normalise(code.code), family.display)
            if certainty is not None:
                yield Reading(code, family, code.category, certainty)


def _certainty(sought: str, code: str, display: Display) -> Certainty | None:
    if sought == code:
        return Certainty.SAME
    if _LEADING_ZEROS.sub("", sought) == _LEADING_ZEROS.sub("", code):
        return Certainty.ALIKE
    if display is not Display.SEVEN_SEGMENT:
        return None
    wrong = apart(sought, code)
    if wrong is not None and wrong <= 1:
        return Certainty.ONE_SEGMENT if wrong else Certainty.LOOKS_THE_SAME
    return Certainty.UPSIDE_DOWN if upside_down(sought, code) else None

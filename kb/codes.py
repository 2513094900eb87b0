"""Which faults may a display mean that shows what somebody typed, and which of them is it safest to go by?"""

import re
import unicodedata
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import IntEnum
from typing import Final

from kb.appliance import ENGINEER_ONLY, NO_FAULT, Clears, Code, Display, Range
from kb.panel_words import messages
from kb.segments import apart, one_line_wrong, one_segment_wrong, upside_down
from kb.spoken import spelt_out

DANGERS: Final = frozenset({"carbon-monoxide", "gas-smell"})
"""The categories that are about life and death."""

_BETWEEN: Final = re.compile(r"(?<![0-9])[.,]|[.,](?![0-9])|[^0-9A-Z.,]+")
_NOT_SHOWN: Final = re.compile(r"[^0-9A-Z\-]+")
_LEADING_ZEROS: Final = re.compile(r"(?<![0-9])0+(?=[0-9])")
_POINTS: Final = re.compile(r"[.,]")
_PRINTED_ALIKE: Final = str.maketrans("OQILZSB", "0011258")
_LONGEST: Final = 60


class Certainty(IntEnum):
    """How sure it is that a code is the one meant; higher is surer."""

    UPSIDE_DOWN = 1
    """The same, read from the other side, as from under a boiler on a wall."""

    POINT = 2
    """The same but for a point between its figures, which may be a lamp of its own."""

    ONE_LINE = 3
    """The same but for one segment that is dark, or lit, in every place of the display."""

    ONE_SEGMENT = 4
    """The same but for one segment of the display that is dark, or was taken for lit."""

    LIKE_WORDS = 5
    """Some of the words on the panel, or all of them in another spelling."""

    LOOKS_THE_SAME = 6
    """Another character that a display or a hand makes with the same shape."""

    ALIKE = 7
    """The same but for its leading noughts, which a display may leave dark."""

    SAME = 8
    """The same, whatever its case and separators, and whether it was typed or spelt out."""


class Safety(IntEnum):
    """How carefully a reading must be taken; the lower the more pressing."""

    DANGER = 1
    """It may be about life and death: out first, and then everything else."""

    ENGINEER = 2
    """Somebody has to come, and a reset may do harm."""

    LOOK = 3
    """A household may look at it, step by step."""

    NO_FAULT = 4
    """The appliance says what it is doing."""


@dataclass(frozen=True, slots=True)
class Reading:
    """One way to take what was typed: a code of a range, and the category of fault it belongs to."""

    code: Code
    range: Range
    category: str
    certainty: Certainty


@dataclass(frozen=True, slots=True)
class Weighed:
    """A reading among the others that are possible.

    `plausible` is false for one that would need the person's eye or the display to be wrong where another needs
    neither; `may_reset` is false where pressing reset may be the wrong thing; `why` gives the reason for both.
    """

    reading: Reading
    safety: Safety
    plausible: bool
    may_reset: bool
    why: str


def normalise(typed: str) -> str:
    """A code's letters and digits in upper case, without what stands between them.

    A point between two digits stays: 1.2 is a gauge's reading, and not the code 12.
    """
    if len(typed) > _LONGEST:
        return ""
    return _BETWEEN.sub("", unicodedata.normalize("NFKC", typed).upper())


def candidates(typed: str, ranges: Iterable[Range]) -> tuple[Reading, ...]:
    """Every code of these ranges that what was typed or read out may mean, the surest first."""
    if len(typed) > _LONGEST:
        return ()
    spellings = {normalise(typed), normalise(spelt_out(typed) or ""), _with_dashes(typed)} - {""}
    best: dict[tuple[str, str], Reading] = {}
    for reading in _readings(typed, spellings, ranges):
        known = best.get(_id(reading))
        if known is None or known.certainty < reading.certainty:
            best[_id(reading)] = reading
    return tuple(sorted(best.values(), key=lambda each: (-each.certainty, each.range.id, each.code.shown)))


def _with_dashes(typed: str) -> str:
    """The same with its dashes, since one may be all that is lit of a character; empty if there is none."""
    return _NOT_SHOWN.sub("", typed.upper()) if "-" in typed else ""


def weigh(*typed: Sequence[Reading], dangers: Collection[str] = DANGERS) -> tuple[Weighed, ...]:
    """What to show of the readings of one code or several, and in which order: the safer path first.

    - Readings that take what was typed as it stands are plausible, and so are all of them where none does.
    - Where a plausible reading is a danger or one for an engineer, no other reading may lead to a reset.
    - A reading for an engineer, or a danger, never leads to one itself.
    - The plausible come before the others; among each, the more pressing first, then the surer.
    """
    plausible = {_id(each): each for readings in typed for each in _plausible(readings)}
    doubtful = {_id(each): each for readings in typed for each in readings if _id(each) not in plausible}
    worst = min((_safety(each, dangers) for each in plausible.values()), default=Safety.NO_FAULT)
    weighed = [
        *(_weighed(each, _safety(each, dangers), True, worst) for each in plausible.values()),
        *(_weighed(each, _safety(each, dangers), False, worst) for each in doubtful.values()),
    ]
    return tuple(sorted(weighed, key=lambda each: (not each.plausible, each.safety, -each.reading.certainty)))


def _plausible(readings: Sequence[Reading]) -> Sequence[Reading]:
    return [each for each in readings if each.certainty >= Certainty.LOOKS_THE_SAME] or readings


def _id(reading: Reading) -> tuple[str, str]:
    return reading.range.id, reading.code.shown


def _weighed(reading: Reading, safety: Safety, plausible: bool, worst: Safety) -> Weighed:
    match safety:
        case Safety.DANGER:
            return Weighed(reading, safety, plausible, False, "A danger comes before everything else.")
        case Safety.ENGINEER:
            return Weighed(reading, safety, plausible, False, "Only an engineer can clear it.")
        case Safety.LOOK if worst <= Safety.ENGINEER:
            return Weighed(reading, safety, plausible, False, "A reading that needs an engineer is as plausible.")
        case Safety.LOOK:
            return Weighed(reading, safety, plausible, True, "No plausible reading forbids the household's own steps.")
    return Weighed(reading, safety, plausible, False, "There is nothing to reset.")


def _safety(reading: Reading, dangers: Collection[str]) -> Safety:
    if reading.category in dangers:
        return Safety.DANGER
    if reading.category == NO_FAULT:
        return Safety.NO_FAULT
    if reading.category == ENGINEER_ONLY or reading.code.clears is Clears.ENGINEER:
        return Safety.ENGINEER
    return Safety.LOOK


def _readings(typed: str, spellings: Collection[str], ranges: Iterable[Range]) -> Iterator[Reading]:
    for family in ranges:
        for code in family.codes:
            shown = normalise(code.code)
            found = [_certainty(sought, shown, family.display) for sought in spellings] if shown else []
            if certainty := max((each for each in found if each), default=None):
                yield Reading(code, family, code.category, certainty)
        if family.display is Display.TEXT:
            for code, same in messages(typed, family.codes):
                yield Reading(code, family, code.category, Certainty.SAME if same else Certainty.LIKE_WORDS)


def _certainty(sought: str, code: str, display: Display) -> Certainty | None:
    if sought == code:
        return Certainty.SAME
    if _LEADING_ZEROS.sub("", sought) == _LEADING_ZEROS.sub("", code):
        return Certainty.ALIKE
    if sought.translate(_PRINTED_ALIKE) == code.translate(_PRINTED_ALIKE):
        return Certainty.LOOKS_THE_SAME
    if _POINTS.sub("", sought) == _POINTS.sub("", code):
        return Certainty.POINT
    return _misread(sought, code) if display is Display.SEVEN_SEGMENT else None


def _misread(sought: str, code: str) -> Certainty | None:
    if apart(sought, code) == 0:
        return Certainty.LOOKS_THE_SAME
    if one_segment_wrong(sought, code):
        return Certainty.ONE_SEGMENT
    if one_line_wrong(sought, code):
        return Certainty.ONE_LINE
    return Certainty.UPSIDE_DOWN if upside_down(sought, code) else None

"""What stands in the way of signing a record?"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Final

from kb.facts import GaugeMarks
from kb.handover.field import Field
from kb.handover.said import Said, dangers, unanswered
from kb.handover.state import State
from kb.handover.typed import Problem

UNSAFE: Final = "unsafe"
_ALWAYS: Final = ("range", "appliance", "serial", "fuel", "fitted")
_OUTCOME: Final = "outcome"


@dataclass(frozen=True, slots=True)
class Lacking:
    """A field that must be filled in before the record can be signed, or filled in otherwise, and then why."""

    section: str
    field: str
    words: str
    why: str


@dataclass(frozen=True, slots=True)
class Readiness:
    """Everything in the way: fields that lack, dangers that forbid to call it fit, questions without an answer."""

    lacking: tuple[Lacking, ...]
    dangers: tuple[Said, ...]
    unanswered: tuple[Said, ...]

    @property
    def may_be_signed(self) -> bool:
        """Whether nothing is in the way."""
        return not (self.lacking or self.dangers or self.unanswered)


def readiness(state: State, said: tuple[Said, ...]) -> Readiness:
    """What is in the way of signing.

    A record with a danger in it is signed only as unsafe: how it was classed, made safe, labelled and told to whom.
    An unsafe appliance's record needs no more than that, and which appliance it is.
    """
    unsafe = is_unsafe(state)
    lacking = tuple(_lacking(state, unsafe))
    if unsafe:
        return Readiness(lacking, (), ())
    return Readiness(lacking, dangers(said), unanswered(said, state.texts))


def is_unsafe(state: State) -> bool:
    """Whether the record says that the appliance was not left in use because it is unsafe."""
    return state.chosen.get(_OUTCOME) == UNSAFE


def _lacking(state: State, unsafe: bool) -> Iterator[Lacking]:
    for field in state.all_asked():
        value = state.values.get(field.id)
        needed = field.needed and (not unsafe or field.section == _OUTCOME or field.id in _ALWAYS)
        if value is None and needed and not state.waits(field.id):
            yield _lack(field, "")
        elif value is not None and value.problem is not None and (value.meaning is None or _must_be_kept(field)):
            yield _lack(field, str(value.problem))
    yield from _marks(state)
    yield from _together(state)


def _must_be_kept(field: Field) -> bool:
    """Whether the home or its card takes the very words, so that no explanation makes up for wrong ones."""
    return bool(field.sets)


def _marks(state: State) -> Iterator[Lacking]:
    figures = state.figures()
    marks = [figures.get(name) for name in ("low", "aim", "high")]
    low, aim, high = marks
    if low is None or aim is None or high is None:
        return
    try:
        GaugeMarks(low, aim, high)
    except ValueError:
        problem = Problem("marks that rise from 0.6 to 2.4 bar", f"{low:g}, {aim:g}, {high:g}", "Mend the one.")
        yield _lack(state.form.by_id["aim"], str(problem))


def _together(state: State) -> Iterator[Lacking]:
    """What the register would not take: a warranty that ended before it began, an alarm that hangs nowhere."""
    fitted, ends = state.meaning("fitted"), state.meaning("warranty-ends")
    if isinstance(fitted, date) and isinstance(ends, date) and ends < fitted:
        problem = Problem("a day after it was commissioned", str(ends), "Mend whichever is wrong.")
        yield _lack(state.form.by_id["warranty-ends"], str(problem))
    if state.meaning("smoke-alarm-ends") and not state.meaning("smoke-alarm-place"):
        yield _lack(state.form.by_id["smoke-alarm-place"], "")


def _lack(field: Field, why: str) -> Lacking:
    return Lacking(field.section, field.id, field.words, why)

"""What is said about a record's figures and answers, and was it answered?"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Set
from dataclasses import dataclass
from enum import StrEnum
from hashlib import blake2b
from typing import Final, TypeAlias

from kb.handover.field import Field
from kb.handover.form import Form
from kb.handover.state import State

WHY: Final = "why-"
"""Before the token of a question: the field that holds the answer to it."""


class Level(StrEnum):
    """How a thing is meant: nothing to ask, a question that the engineer answers, or a danger."""

    FINE = "fine"
    QUESTION = "question"
    DANGER = "danger"


@dataclass(frozen=True, slots=True)
class Said:
    """One thing said: by which check, about which fields, how it is meant, in plain words, with the working."""

    check: str
    fields: tuple[str, ...]
    level: Level
    text: str
    working: tuple[str, ...] = ()

    @property
    def answered_in(self) -> str:
        """The field that holds an answer; other words, such as another figure, are another question."""
        return WHY + blake2b(f"{self.check}: {self.text}".encode(), digest_size=5).hexdigest()

    def section(self, form: Form) -> str:
        """The section it is shown in: that of the last field it is about, which made it known."""
        about = [field.section for field in form.by_id.values() if field.id in self.fields]
        return about[-1] if about else form.sections[-1].id


Check: TypeAlias = Callable[[State], Iterable[Said]]
"""Looks at a record and says something; it never changes a figure."""

MAKE_SAFE: Final = (
    "Stop, make it safe and follow the unsafe-situations procedure. Only if it was written wrongly, correct it here."
)


def said_of(state: State, checks: Iterable[Check]) -> tuple[Said, ...]:
    """Everything there is to say, what is dangerous first."""
    found = [*_answers(state), *(said for check in checks for said in check(state))]
    found += _impossible(state, {id for said in found for id in said.fields})
    order = list(Level)[::-1]
    return tuple(sorted(found, key=lambda said: order.index(said.level)))


def unanswered(said: Iterable[Said], texts: Mapping[str, str]) -> tuple[Said, ...]:
    """The questions that nobody answered in words."""
    return tuple(each for each in said if each.level is Level.QUESTION and not texts.get(each.answered_in, "").strip())


def dangers(said: Iterable[Said]) -> tuple[Said, ...]:
    """What is dangerous."""
    return tuple(each for each in said if each.level is Level.DANGER)


def _answers(state: State) -> Iterator[Said]:
    """What a field itself says about the option that was chosen."""
    for field in state.all_asked():
        chosen = state.chosen.get(field.id, "")
        if chosen in field.danger:
            yield Said(field.id, (field.id,), Level.DANGER, f"{field.danger[chosen]} {MAKE_SAFE}")
        elif chosen in field.asks:
            yield Said(field.id, (field.id,), Level.QUESTION, field.asks[chosen])


def _impossible(state: State, spoken_of: Set[str]) -> Iterator[Said]:
    """A figure beyond what can be is asked about, unless more is said of it.

    What cannot be read at all is said at its field alone.
    """
    for field in state.all_asked():
        value = state.values.get(field.id)
        if value and value.problem and value.meaning is not None and field.id not in spoken_of:
            yield Said("possible", (field.id,), Level.QUESTION, _told(field, str(value.problem)))


def _told(field: Field, problem: str) -> str:
    return f"{field.words}: {problem}"

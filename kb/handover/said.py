"""What is said about a record's figures and answers, and was it answered?"""

from collections.abc import Callable, Iterable, Iterator, Mapping
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
        """The section it is shown in: that of the first field it is about."""
        return next((form.by_id[id].section for id in self.fields if id in form.by_id), form.sections[0].id)


Check: TypeAlias = Callable[[State], Iterable[Said]]
"""Looks at a record and says something; it never changes a figure."""

MAKE_SAFE: Final = (
    "Stop, make it safe and follow the unsafe-situations procedure. Only if it was written wrongly, correct it here."
)


def said_of(state: State, checks: Iterable[Check]) -> tuple[Said, ...]:
    """Everything there is to say, what is dangerous first."""
    found = [*_answers(state), *_impossible(state), *(said for check in checks for said in check(state))]
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


def _impossible(state: State) -> Iterator[Said]:
    """A figure beyond what can be is asked about; what cannot be read at all is said at its field alone."""
    for field in state.all_asked():
        value = state.values.get(field.id)
        if value and value.problem and value.meaning is not None:
            yield Said("possible", (field.id,), Level.QUESTION, _told(field, str(value.problem)))


def _told(field: Field, problem: str) -> str:
    return f"{field.words}: {problem}"

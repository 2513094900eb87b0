"""Which danger question is next on the phone, what was answered when, and is the fault path over?

The questions come one at a time and in their order, and each wants an answer of its own: yes, no, or not sure, which
counts as yes.
The first yes ends the path.
Words that may mean danger, a handler who heard something, and a call that runs long put questions back in front.
"""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from enum import StrEnum
from typing import Final

from kb.article import Answer, Audience, End, Pace, Step
from kb.desk.events import Did, Event
from kb.library import CARRY_ON, Library
from kb.prose import Target

ASK_AGAIN_AFTER: Final = timedelta(minutes=5)
"""A call that runs longer is asked about gas and alarms once more (common practice at the desk)."""

GAS_AND_ALARM: Final = frozenset({"gas-smell", "carbon-monoxide"})
"""The emergencies that are asked about again in a long call."""


_SPOKEN: Final = ("words", "code", "since", "changed", "access", "why")


class Said(StrEnum):
    """An answer to a danger question."""

    YES = "yes"
    NO = "no"
    NOT_SURE = "not-sure"


class Because(StrEnum):
    """Why the questions that wait are asked."""

    FIRST = "first"
    AGAIN = "again"
    WORDS = "words"
    LONG = "long"


@dataclass(frozen=True, slots=True)
class Asked:
    """One danger question that was answered, how, and when."""

    step: Step
    said: Said
    at: datetime


@dataclass(frozen=True, slots=True)
class Agenda:
    """The danger questions of a call: what was answered, what waits and why, and the end that a yes led to.

    `words` are those that may mean danger; `slips` the reasons for which a yes was taken back.
    """

    answered: tuple[Asked, ...] = ()
    waiting: tuple[Step, ...] = ()
    because: Because = Because.FIRST
    words: str = ""
    end: End | None = None
    slips: tuple[str, ...] = ()

    @property
    def next(self) -> Step | None:
        """The question to ask now."""
        return self.waiting[0] if self.waiting and self.end is None else None

    @property
    def clear(self) -> bool:
        """Whether every question was answered no, and none waits."""
        return self.end is None and not self.waiting


def agenda(library: Library, events: Iterable[Event]) -> Agenda:
    """Where the danger questions stand after these events."""
    steps = questions(library)
    now = Agenda(waiting=steps)
    for event in events:
        now = _after(library, steps, now, event)
    return now


def questions(library: Library) -> tuple[Step, ...]:
    """The danger questions in their order."""
    danger = library.danger
    return tuple(step for step in danger.steps if step.audience is Audience.HOUSEHOLD) if danger else ()


def clear_answer(step: Step) -> Answer | None:
    """The answer that says no to a danger question."""
    return next((a for a in step.answers if a.target == CARRY_ON or a.target.article == step.article), None)


def yes_end(library: Library, step: Step) -> End | None:
    """Where a yes to a danger question leads."""
    clear = clear_answer(step)
    targets = (answer.target for answer in step.answers if answer is not clear)
    ends = (library.find(target, Audience.HOUSEHOLD) for target in targets)
    return next((end for end in ends if isinstance(end, End)), None)


def clear_trail(library: Library) -> str:
    """The trail that says no to each danger question, one by one."""
    return "-".join(answer.token for step in questions(library) if (answer := clear_answer(step)))


def due_again(agenda: Agenda, now: datetime, library: Library) -> bool:
    """Whether gas and alarms were last asked about so long ago that they are asked again."""
    again = {step.target for step in _about(library, questions(library), GAS_AND_ALARM)}
    last = [asked.at for asked in agenda.answered if asked.step.target in again]
    return agenda.clear and bool(last) and now - max(last) >= ASK_AGAIN_AFTER


def _after(library: Library, steps: tuple[Step, ...], now: Agenda, event: Event) -> Agenda:
    match event.did:
        case Did.ASKED if now.end is not None:
            return now
        case Did.ASKED:
            return _answered(library, now, event)
        case Did.SLIPPED:
            return _taken_back(now, event)
        case Did.ASK_AGAIN if event.get("which") == "gas-alarm":
            return _put_in_front(steps, now, _about(library, steps, GAS_AND_ALARM), Because.LONG)
        case Did.ASK_AGAIN:
            return _put_in_front(steps, now, steps, Because.AGAIN)
    dangers = event.get("danger").split()
    if not dangers:
        return now
    meant = tuple(_about(library, steps, dangers)) or steps
    words = " ".join(event.get(name) for name in _SPOKEN if event.get(name))
    return replace(_put_in_front(steps, now, meant, Because.WORDS), words=words)


def _answered(library: Library, now: Agenda, event: Event) -> Agenda:
    step = now.next
    said = next((each for each in Said if each == event.get("answer")), None)
    # An answer to anything but the question that waits is a key pressed twice.
    if step is None or said is None or event.get("step") != step.anchor:
        return now
    answered = (*now.answered, Asked(step, said, event.at))
    if said is Said.NO:
        rest = now.waiting[1:]
        return replace(now, answered=answered, waiting=rest, words=now.words if rest else "")
    return replace(now, answered=answered, end=yes_end(library, step))


def _taken_back(now: Agenda, event: Event) -> Agenda:
    if now.end is None or not event.get("why").strip():
        return now
    return replace(now, end=None, slips=(*now.slips, event.get("why")))


def _put_in_front(steps: tuple[Step, ...], now: Agenda, these: Iterable[Step], because: Because) -> Agenda:
    wanted = {step.target for step in (*now.waiting, *these)}
    first_round = now.because is Because.FIRST and now.waiting
    return replace(
        now,
        waiting=tuple(step for step in steps if step.target in wanted),
        because=Because.FIRST if first_round else because,
        words=now.words,
    )


def _about(library: Library, steps: Iterable[Step], dangers: Collection[str]) -> Iterator[Step]:
    """The questions about some dangers; one that no question names is looked for behind all that make safe."""
    named: dict[str, Target] = {}
    ends = {step.target: yes_end(library, step) for step in steps}
    for target, end in ends.items():
        if end is not None and end.emergency:
            named.setdefault(end.emergency, target)
    own = {named[danger] for danger in dangers if danger in named}
    unnamed = any(danger not in named for danger in dangers)
    for step in steps:
        end = ends[step.target]
        if step.target in own or (unnamed and end is not None and end.pace is Pace.MAKE_SAFE):
            yield step

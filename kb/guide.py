"""Which moves are there in a walk: where it begins, what may be answered, and where each answer leads?

The walk and the safety proof make the same ones.
A walk begins with the danger questions, borrows the question about earlier attempts when it meets something
limited, answers by itself what is already known, and stops at a step that waits for an answer, or at an end.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import Final

from kb.article import Answer, Audience, End, Step, token_of
from kb.facts import PRESSURE_SPAN, TRIED, Known
from kb.library import CARRY_ON, TRIED_ARTICLE, Library
from kb.prose import Target

NONE_OF_THESE: Final = "none"
"""The token that says no to every danger question at once, whichever these are by now."""

UNSURE: Final = ""
"""The value of a fact that was asked for and could not be told, so that it is not asked again."""

_HOPS: Final = 500
_TOKEN = re.compile(r"(?P<token>[a-z0-9]{3,4})(?:~(?P<reading>\d{1,2}(?:\.\d{1,2})?))?")


class Trouble(StrEnum):
    """Why a trail could not be followed to its end."""

    GARBLED = "garbled"
    TOO_LONG = "too-long"
    ANSWER_GONE = "answer-gone"
    READING_ELSEWHERE = "reading-elsewhere"
    PAST_THE_END = "past-the-end"
    NOWHERE = "nowhere"


class By(StrEnum):
    """How an answer came to be given."""

    PERSON = "person"
    FACT = "fact"
    NONE_OF_THESE = "none-of-these"


@dataclass(frozen=True, slots=True)
class Taken:
    """One answer on the way: at which step, who gave it, and the piece of the trail that says so."""

    step: Step
    answer: Answer
    by: By
    written: str = ""
    reading: float | None = None


@dataclass(frozen=True, slots=True)
class State:
    """Where a walk stands and all that its next step can depend on.

    `pending` holds the steps that inserted questions will return to, `passed` how often a limited step
    without an action was passed.
    """

    at: Step | End
    facts: Mapping[str, str]
    passed: Mapping[Target, int] = field(default_factory=dict)
    pending: tuple[Step, ...] = ()


@dataclass(frozen=True, slots=True)
class Attempt:
    """Something limited that was tried off this walk; `at` is its step while the walk may still come by it."""

    action: str
    at: Target | None = None


class Lost(Exception):
    """A link of the library leads nowhere that the audience may go: the checker would have refused it."""


def answer_to(step: Step, reading: float, known: Known) -> Answer | None:
    """The answer that a typed reading belongs to, if the step reads a gauge and the figure can be on it."""
    if step.reading is None or not PRESSURE_SPAN[0] <= reading <= PRESSURE_SPAN[1]:
        return None
    return next((a for a in step.answers if a.bounds and a.bounds.hold(reading, known.marks)), None)


def none_of(library: Library) -> str:
    """The token that says no to the danger questions as they are worded now, and to no others."""
    danger = library.danger
    steps = [step for step in danger.steps if step.audience is Audience.HOUSEHOLD] if danger else []
    return "n" + token_of("", "", " ".join(answer.token for step in steps for answer in step.answers))


@dataclass(frozen=True, slots=True)
class Guide:
    """The moves of a walk through one library for one audience; the safety proof makes the same moves.

    `attempts` count towards the limits beside those of the walk.
    """

    library: Library
    known: Known
    audience: Audience
    attempts: Sequence[Attempt] = ()

    def begin(self, start: Step, taken: list[Taken] | None = None) -> State:
        """Stand before the danger questions, with `start` to come after them."""
        danger = self.library.danger.first(Audience.HOUSEHOLD) if self.library.danger else None
        if danger is None:
            raise Lost("the library has no danger questions")
        pending = () if start.article == danger.article else (start,)
        return self.settle(State(danger, dict(self.known.facts), pending=pending), taken)

    def follow(self, state: State, piece: str, taken: list[Taken]) -> State | Trouble:
        """Give the answer that one piece of a trail stands for."""
        found = _TOKEN.fullmatch(piece)
        if found is None:
            return Trouble.GARBLED
        if isinstance(state.at, End):
            return Trouble.PAST_THE_END
        if self.at_danger(state) and found["token"] in (NONE_OF_THESE, none_of(self.library)):
            return self._none_of_these(state, piece, taken)
        step, answer = next(
            (each for each in self.open_answers(state) if each[1].token == found["token"]), (None, None)
        )
        if step is None or answer is None:
            return Trouble.ANSWER_GONE
        reading = float(found["reading"]) if found["reading"] else None
        if reading is not None and answer_to(step, reading, self.known) is not answer:
            return Trouble.READING_ELSEWHERE
        taken.append(Taken(step, answer, By.PERSON, piece, reading))
        return self.take(replace(state, at=step), answer, taken)

    def take(self, state: State, answer: Answer, taken: list[Taken] | None = None) -> State:
        """Give an answer at the step that waits, and go on until another one waits or the walk ends."""
        return self.settle(self._step_through(state, answer), taken)

    def at_danger(self, state: State) -> bool:
        """Whether the danger questions are being asked."""
        return self.library.danger is not None and state.at.article == self.library.danger.id

    def open_steps(self, state: State) -> Iterator[Step]:
        """The steps that may be answered now: the one that waits, and all danger questions from there on."""
        step: Step | End | None = state.at
        while isinstance(step, Step):
            yield step
            clear = self._clear_answer(step) if self.at_danger(state) else None
            step = self.library.find(clear.target, self.audience) if clear else None

    def open_answers(self, state: State) -> Iterator[tuple[Step, Answer]]:
        """What may be answered now, and where: a "no" only to the danger question that waits, so none is skipped."""
        for step in self.open_steps(state):
            clear = self._clear_answer(step) if step is not state.at else None
            yield from ((step, answer) for answer in step.answers if answer is not clear)

    def _clear_answer(self, step: Step) -> Answer | None:
        return next((a for a in step.answers if a.target == CARRY_ON or a.target.article == step.article), None)

    def _none_of_these(self, state: State, written: str, taken: list[Taken]) -> State | Trouble:
        danger = state.at.article
        while isinstance(state.at, Step) and state.at.article == danger:
            answer = self._clear_answer(state.at)
            if answer is None:
                raise Lost(f"{state.at.target} has no answer that says no")
            taken.append(Taken(state.at, answer, By.NONE_OF_THESE, written))
            written = ""
            state = self.take(state, answer, taken)
        return state

    def _step_through(self, state: State, answer: Answer) -> State:
        step = state.at
        assert isinstance(step, Step)
        facts, passed = state.facts, state.passed
        if step.fact:
            facts = {**facts, step.fact: answer.fact_value or UNSURE}
        if step.limit:
            if step.limit.action:
                fact = TRIED[step.limit.action]
                facts = {**facts, fact: str(int(facts.get(fact, "0")) + 1)}
            else:
                passed = {**passed, step.target: passed.get(step.target, 0) + 1}
        return State(self._at(answer.target), facts, passed, state.pending)

    def settle(self, state: State, taken: list[Taken] | None) -> State:
        """Go on by itself until somebody must answer, or the walk ends."""
        for _ in range(_HOPS):
            onward = self._return(state) if isinstance(state.at, End) else self._pass_by(state, state.at, taken)
            if onward is None:
                return state
            state = onward
        raise Lost(f"the walk goes round in a circle at {state.at.target}")

    def _return(self, state: State) -> State | None:
        if state.at.target != CARRY_ON or not state.pending:
            return None
        *earlier, back = state.pending
        return replace(state, at=back, pending=tuple(earlier))

    def _pass_by(self, state: State, step: Step, taken: list[Taken] | None) -> State | None:
        if step.limit:
            action = step.limit.action
            fact = TRIED[action] if action else None
            if fact and fact not in state.facts:
                return replace(state, at=self._asking(fact), pending=(*state.pending, step))
            if self.used(state, step) >= self.allowed(step):
                if step.limit.then is None:
                    raise Lost(f"{step.target} does not say where to go when its limit is used up")
                return replace(state, at=self._at(step.limit.then))
        if step.fact and step.fact in state.facts:
            value = state.facts[step.fact] or None
            answer = next((answer for answer in step.answers if answer.fact_value == value), None)
            if answer is not None:
                if taken is not None:
                    taken.append(Taken(step, answer, By.FACT))
                return self._step_through(state, answer)
        return None

    def used(self, state: State, step: Step) -> int:
        """How often the thing a step limits was done, before the walk, in it, and off it."""
        if step.limit and step.limit.action:
            off = [each for each in self.attempts if each.action == step.limit.action and each.at != step.target]
            return int(state.facts.get(TRIED[step.limit.action], "0")) + len(off)
        return state.passed.get(step.target, 0)

    def allowed(self, step: Step) -> int:
        """How often a limited step may be passed here: the appliance's own limit wins where it is lower."""
        assert step.limit is not None
        own = self.known.limits.get(step.limit.action or "", step.limit.at_most)
        return min(step.limit.at_most, own)

    def _asking(self, fact: str) -> Step:
        article = self.library.articles.get(TRIED_ARTICLE)
        for step in article.steps if article else ():
            if step.fact == fact and step.audience is Audience.HOUSEHOLD:
                return step
        raise Lost(f"no step of {TRIED_ARTICLE}.md asks for {fact}")

    def _at(self, target: Target) -> Step | End:
        place = self.library.find(target, self.audience)
        if place is None:
            raise Lost(f"{target} leads nowhere that the {self.audience} may go")
        return place

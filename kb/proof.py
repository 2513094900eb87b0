"""Does what must never happen never happen, over every walk there is?

The proof makes the very moves of `kb.guide` from every article, for every audience, with the appliance's own
limits and without, and looks at each place it reaches.
A fact of the home can make a difference only at a step that asks for it.
So there, and no earlier, the proof goes on once for each value that the home may have brought along, and once as
a home of which nothing is known: that covers every combination of facts.
Two walks that stand at the same step and know the same of what can still matter go on alike, so each such state
is looked at once and the walks through it are counted.
"""

from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import partial

from kb.article import Answer, Audience, End, Pace, Step
from kb.facts import FACTS, TRIED, Known
from kb.findings import Finding, Place, in_order
from kb.guide import UNSURE, Guide, Lost, State
from kb.library import CARRY_ON, Library
from kb.prose import Target

RULE = "safety-proof"


@dataclass(frozen=True, slots=True)
class Proof:
    """What was walked and what was found: `walks` counts whole walks from the danger questions to an end."""

    walks: int
    states: int
    findings: tuple[Finding, ...]


def prove(library: Library) -> Proof:
    """Walk everything; a library without danger questions has no walks and one finding."""
    if library.danger is None or library.danger.first(Audience.HOUSEHOLD) is None:
        finding = Finding(Place("danger.md", 1), RULE, "There are no danger questions.", "Write danger.md first.")
        return Proof(0, 0, (finding,))
    prover = _Prover(library)
    for article in library.articles.values():
        for audience in Audience:
            start = article.first(audience)
            if start is not None:
                prover.walk_all(start, audience)
    return Proof(prover.walks, len(prover.seen), in_order(prover.findings))


class _Prover:
    def __init__(self, library: Library) -> None:
        self.library = library
        self.reach = _Reach(library)
        self.findings: list[Finding] = []
        self.walks = 0
        self.seen: dict[tuple[object, ...], int] = {}
        self.above: set[tuple[object, ...]] = set()

    def walk_all(self, start: Step, audience: Audience) -> None:
        """Every walk from one step, with the article's limits and with an appliance that allows each thing once."""
        for limits in ({}, dict.fromkeys(TRIED, 1)):
            self.walks += self._begin(start, Guide(self.library, Known(limits=limits), audience))

    def _begin(self, start: Step, guide: Guide) -> int:
        try:
            state = guide.begin(start)
        except Lost as lost:
            self._note(start.place, f"A walk from here breaks off: {lost}.", "Mend the link or the loop.")
            return 0
        if not guide.at_danger(state):
            self._note(
                start.place, "A walk begins without the danger questions.", "Let danger.md begin with a question."
            )
        return self._onward(_Moment(guide, state, {}))

    def _onward(self, moment: "_Moment") -> int:
        """How many walks there are from here to an end."""
        key = moment.key(self.reach)
        if key in self.seen:
            return self.seen[key]
        at = moment.state.at
        if key in self.above:
            self._note(at.place, "A walk can come back to here for ever.", "Put a limit on a step of the loop.")
            return 0
        for finding in moment.wrong():
            self._note(at.place, *finding)
        if isinstance(at, End):
            count = 1
        else:
            self.above.add(key)
            count = sum(times * self._follow(move, at) for move, times in moment.moves())
            self.above.discard(key)
        self.seen[key] = count
        return count

    def _follow(self, move: Callable[[], "_Moment"], at: Step) -> int:
        try:
            following = move()
        except Lost as lost:
            self._note(at.place, f"A walk breaks off here: {lost}.", "Mend the link or the loop.")
            return 0
        return self._onward(following)

    def _note(self, place: Place, found: str, remedy: str) -> None:
        self.findings.append(Finding(place, RULE, found, remedy))


@dataclass(frozen=True, slots=True)
class _Moment:
    """A state of a walk, with a count of attempts that the proof keeps by itself."""

    guide: Guide
    state: State
    tried: Mapping[str, int]

    def key(self, reach: "_Reach") -> tuple[object, ...]:
        """All that can still make a difference."""
        state, audience = self.state, self.guide.audience
        ahead = (state.at.target, *(step.target for step in state.pending))
        facts = frozenset().union(*(reach.facts(target, audience) for target in ahead))
        known = tuple(sorted((fact, value) for fact, value in state.facts.items() if fact in facts))
        passed = tuple(sorted((str(target), count) for target, count in state.passed.items()))
        tried = tuple(sorted((action, count) for action, count in self.tried.items() if TRIED[action] in facts))
        return (audience, bool(self.guide.known.limits), ahead, known, passed, tried)

    def moves(self) -> Iterator[tuple[Callable[[], "_Moment"], int]]:
        """Every way on: each answer, and each value of a fact that the home may have brought along.

        Answers that lead to one place and say the same of a fact go on alike: they are one way, so many times.
        """
        step = self.state.at
        assert isinstance(step, Step)
        alike = Counter((answer.target, answer.fact_value) for answer in step.answers)
        for answer in {(answer.target, answer.fact_value): answer for answer in step.answers}.values():
            yield partial(self._answer, step, answer), alike[answer.target, answer.fact_value]
        if step.fact and step.fact in FACTS and step.fact not in self.state.facts:
            for value in FACTS[step.fact]:
                yield partial(self._know, step.fact, value), 1

    def _answer(self, step: Step, answer: Answer) -> "_Moment":
        tried = dict(self.tried)
        for action, fact in TRIED.items():
            if step.fact == fact:
                tried[action] = int(answer.fact_value or 0)
        if step.limit and step.limit.action:
            tried[step.limit.action] = tried.get(step.limit.action, 0) + 1
        return _Moment(self.guide, self.guide.take(self.state, answer), tried)

    def _know(self, fact: str, value: str) -> "_Moment":
        facts = {**self.state.facts, fact: value}
        return _Moment(self.guide, self.guide.settle(replace(self.state, facts=facts), None), self.tried)

    def wrong(self) -> Iterator[tuple[str, str]]:
        """What must never be, seen from here."""
        at = self.state.at
        if self.guide.audience is Audience.HOUSEHOLD and at.audience is Audience.ENGINEER:
            yield "A household comes to an engineer's place.", "Lead its answers to household steps and ends."
        if isinstance(at, End):
            yield from self._wrong_end(at)
        else:
            yield from self._wrong_step(at)

    def _wrong_step(self, step: Step) -> Iterator[tuple[str, str]]:
        if not step.answers:
            yield "A walk stops here without an end.", "Close the step with answers."
        if step.limit and step.limit.action:
            tried = self.tried.get(step.limit.action, 0)
            if tried >= step.limit.at_most:
                yield f"{step.limit.action} is offered after {tried} attempts.", "Lower nothing; report this fault."
        if step.fact and self.state.facts.get(step.fact, UNSURE) != UNSURE:
            values = {answer.fact_value for answer in step.answers}
            if self.state.facts[step.fact] in values:
                yield f"{step.fact} is asked for though it is known.", "Report this fault of the walk."

    def _wrong_end(self, end: End) -> Iterator[tuple[str, str]]:
        if end.target == CARRY_ON and self.state.pending:
            yield "A walk stops in the middle of inserted questions.", "Report this fault of the walk."
        if end.pace is Pace.LEAVE and end.emergency is None and end.audience is Audience.HOUSEHOLD:
            yield "An end says to leave without the order of actions.", "Add emergency=… to its braces."


class _Reach:
    """Which facts can still be asked for from a place, for each audience."""

    def __init__(self, library: Library) -> None:
        self.library = library
        self._facts: dict[tuple[Target, Audience], frozenset[str]] = {}

    def facts(self, target: Target, audience: Audience) -> frozenset[str]:
        """The facts that steps from here on ask for or count."""
        known = self._facts.get((target, audience))
        if known is None:
            known = frozenset(self._gather(target, audience))
            self._facts[target, audience] = known
        return known

    def _gather(self, target: Target, audience: Audience) -> Iterator[str]:
        ahead, visited = [target], {target}
        while ahead:
            place = self.library.find(ahead.pop(), audience)
            if not isinstance(place, Step):
                continue
            if place.fact:
                yield place.fact
            if place.limit and place.limit.action:
                yield TRIED[place.limit.action]
            onward = {answer.target for answer in place.answers}
            if place.limit and place.limit.then:
                onward.add(place.limit.then)
            ahead += onward - visited
            visited |= onward

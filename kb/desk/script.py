"""The walk as the desk reads it aloud: where does each fault of a call stand, with all that is known by now?

The home may be found while talking, a second fault may be looked at beside the first, and a reference may come from
an older library.
So a fault's answers are followed with whatever is known now: an answer to something that is known meanwhile is passed
over, what no longer exists is told, and what was tried in one fault counts in the other.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from kb.article import Answer, Audience, End, Step
from kb.desk.call import Branch
from kb.desk.unsure import CANNOT, way_out
from kb.facts import NOTHING_KNOWN, TRIED, Known
from kb.library import Library
from kb.walk import By, Guide, Standing, State, Taken, Trouble

_NO_START: Final = "Expected an article that a household may walk, found none of the name {}. Begin with another."


class NoSuchFault(Exception):
    """A call was to be led along an article that is not there, or that no household may walk."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where one fault of a call stands.

    `places` says for each answer taken which of the branch's pieces it was, and `gone` which pieces no longer lead
    anywhere; `cannot` is the step at which the caller could not tell, where that ended the path.
    """

    branch: Branch
    start: Step
    standing: Standing
    places: tuple[int, ...] = ()
    gone: tuple[int, ...] = ()
    cannot: Step | None = None

    @property
    def at(self) -> Step | End:
        """The step that waits, or the end."""
        return self.standing.at

    @property
    def onward(self) -> int:
        """The place that the next answer takes, over what no longer leads anywhere."""
        return len(self.branch.given) - len(self.gone)

    @property
    def tries(self) -> Mapping[str, int]:
        """How often each limited thing was tried in this fault."""
        tried: dict[str, int] = {}
        for taken in self.standing.taken:
            if taken.step.limit and taken.step.limit.action:
                tried[taken.step.limit.action] = tried.get(taken.step.limit.action, 0) + 1
        return tried

    @property
    def said_before(self) -> Mapping[str, int]:
        """How often the caller said that each limited thing was tried before the call."""
        counts: dict[str, int] = {}
        for taken in self.standing.taken:
            for action, fact in TRIED.items():
                if taken.step.fact == fact and taken.by is By.PERSON:
                    counts[action] = int(taken.answer.fact_value or "3")
        return counts


def start_of(library: Library, article: str) -> Step:
    """The step a fault begins with; raises NoSuchFault."""
    found = library.articles.get(article)
    start = found.first(Audience.HOUSEHOLD) if found else None
    if start is None:
        raise NoSuchFault(_NO_START.format(article))
    return start


def places(library: Library, branches: Sequence[Branch], current: int, known: Known = NOTHING_KNOWN) -> list[Place]:
    """Where every fault of a call stands, with what the others brought out."""
    found: list[Place] = []
    for branch in branches:
        found.append(place(library, branch, _with(known, found)))
    if 0 <= current < len(found) - 1:
        others = [each for number, each in enumerate(found) if number != current]
        found[current] = place(library, branches[current], _with(known, others))
    return found


def place(library: Library, branch: Branch, known: Known = NOTHING_KNOWN) -> Place:
    """Follow a fault's answers as far as they lead; raises NoSuchFault."""
    start = start_of(library, branch.article)
    guide = Guide(library, known, Audience.HOUSEHOLD)
    taken: list[Taken] = []
    state = guide.begin(start, taken)
    where: list[int] = []
    gone: list[int] = []
    for number, piece in enumerate(branch.pieces):
        if piece == CANNOT and isinstance(state.at, Step):
            step, end = state.at, way_out(library, state.at)
            standing = Standing(end, tuple(taken), state.facts)
            return Place(branch, start, standing, tuple(_filled(where, taken)), tuple(gone), step)
        before = len(taken)
        following = guide.follow(state, piece, taken)
        if not isinstance(following, Trouble):
            state = following
            where += [number] * (len(taken) - before)
        elif not _known_meanwhile(library, piece, state, known):
            gone = list(range(number, len(branch.pieces)))
            break
    standing = Standing(state.at, tuple(taken), state.facts, Trouble.ANSWER_GONE if gone else None)
    return Place(branch, start, standing, tuple(_filled(where, taken)), tuple(gone))


def answer_for(step: Step, token: str) -> Answer | None:
    """The answer of a step that a token stands for."""
    return next((answer for answer in step.answers if answer.token == token), None)


def _filled(where: list[int], taken: Sequence[Taken]) -> Iterable[int]:
    """A place for each answer taken; those that facts gave before the first piece have none."""
    return [*([-1] * (len(taken) - len(where))), *where]


def _known_meanwhile(library: Library, piece: str, state: State, known: Known) -> bool:
    """Whether a piece answers something that is known by now, so that its question is no longer put."""
    token = piece.partition("~")[0]
    asked = {step.fact for step in library.steps() if step.fact and answer_for(step, token)}
    return any(fact in known.facts or fact in state.facts for fact in asked)


def _with(known: Known, others: Iterable[Place]) -> Known:
    """What is known, with the facts that other faults brought out and what was tried there."""
    facts = dict(known.facts)
    tried: dict[str, int] = {}
    before: dict[str, int] = {}
    for other in others:
        counts = set(TRIED.values())
        facts |= {name: value for name, value in other.standing.facts.items() if value and name not in counts}
        for action, times in other.tries.items():
            tried[action] = tried.get(action, 0) + times
        before |= other.said_before
    for action in {*tried, *before}:
        facts[TRIED[action]] = str(before.get(action, 0) + tried.get(action, 0))
    return replace(known, facts=facts)

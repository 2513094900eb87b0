"""The walk as the desk reads it aloud: where does each fault of a call stand, with all that is known by now?

The home may be found while talking, a second fault may be looked at beside the first, and a reference may come from
an older library.
So a fault's answers are followed with whatever is known now (`kb.trail`), and what was tried in one fault counts in
the other.
"""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from kb.article import Answer, Audience, End, Step
from kb.desk.call import Branch
from kb.desk.unsure import CANNOT, way_out
from kb.facts import NOTHING_KNOWN, TRIED, Known
from kb.guide import By
from kb.library import Library
from kb.trail import Followed, Unused, follow_trail, gone_words, unmet_words
from kb.walk import Standing

_NO_START: Final = "Expected an article that a household may walk, found none of the name {}. Begin with another."


class NoSuchFault(Exception):
    """A call was to be led along an article that is not there, or that no household may walk."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where one fault of a call stands.

    `places` says for each answer taken which of the branch's pieces it was, `gone` which pieces no longer lead
    anywhere, and why; `waiting` are those whose question has not come up, `stays` those to hold ready further on and
    `drops` those to let go; `cannot` is the step at which the caller could not tell, where that ended the path.
    """

    branch: Branch
    start: Step
    followed: Followed
    standing: Standing
    places: tuple[int, ...] = ()
    gone: tuple[Unused, ...] = ()
    waiting: tuple[Unused, ...] = ()
    stays: tuple[int, ...] = ()
    drops: tuple[int, ...] = ()
    cannot: Step | None = None

    @property
    def at(self) -> Step | End:
        """The step that waits, or the end."""
        return self.standing.at

    @property
    def onward(self) -> int:
        """The place that the next answer takes, behind those that count."""
        return len(self.branch.given) - len(self.stays) - len(self.drops)

    def rank(self, number: int) -> int:
        """The place of a piece among those that count, which is what an answer or a step back names."""
        return number - sum(each < number for each in (*self.stays, *self.drops))

    @property
    def unasked(self) -> tuple[str, ...]:
        """What is to be told of answers that lead nowhere any more."""
        unmet = self.waiting if isinstance(self.at, End) else ()
        return (*self.branch.dropped, *gone_words(self.gone), *unmet_words(unmet))

    @property
    def tries(self) -> Mapping[str, int]:
        """How often each limited thing was tried in this fault, also where its step is gone."""
        limits = (taken.step.limit for taken in self.standing.taken)
        here = [limit.action for limit in limits if limit and limit.action]
        return Counter([*here, *(attempt.action for attempt in self.followed.attempts)])

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


def places(
    library: Library,
    branches: Sequence[Branch],
    current: int,
    known: Known = NOTHING_KNOWN,
    earlier: Iterable[Library] = (),
) -> list[Place]:
    """Where every fault of a call stands, with what the others brought out."""
    found: list[Place] = []
    for branch in branches:
        found.append(place(library, branch, _with(known, found), earlier))
    if 0 <= current < len(found) - 1:
        others = [each for number, each in enumerate(found) if number != current]
        found[current] = place(library, branches[current], _with(known, others), earlier)
    return found


def place(library: Library, branch: Branch, known: Known = NOTHING_KNOWN, earlier: Iterable[Library] = ()) -> Place:
    """Follow a fault's answers as far as they lead; raises NoSuchFault."""
    start = start_of(library, branch.article)
    numbers = [number for number, each in enumerate(branch.given) if each.piece != CANNOT]
    followed = follow_trail(library, start, [branch.pieces[number] for number in numbers], known, earlier)
    standing = followed.standing
    cannot = _cannot(branch, standing.at)
    if cannot is not None:
        standing = replace(standing, at=way_out(library, cannot), trouble=None)
    lost = {each.number for each in followed.gone if not each.counts} | set(followed.again)
    return Place(
        branch,
        start,
        followed,
        standing,
        tuple(numbers[each] if each >= 0 else each for each in followed.places),
        tuple(_as_given(branch, numbers, each) for each in followed.gone),
        tuple(_as_given(branch, numbers, each) for each in followed.waiting),
        tuple(numbers[each] for each in followed.staying),
        tuple(numbers[each] for each in sorted(lost)),
        cannot,
    )


def _as_given(branch: Branch, numbers: Sequence[int], each: Unused) -> Unused:
    """An answer by its place in the branch, and in the words in which it was given where these were kept."""
    given = branch.given[numbers[each.number]]
    words = (given.question, given.answer) if given.question else (each.question, each.answer)
    return replace(each, number=numbers[each.number], question=words[0], answer=words[1])


def _cannot(branch: Branch, at: Step | End) -> Step | None:
    """The step that waits, if it is the one at which they could not tell."""
    asked = [given.question for given in branch.given if given.piece == CANNOT]
    return at if isinstance(at, Step) and any(question in ("", at.title) for question in asked) else None


def answer_for(step: Step, token: str) -> Answer | None:
    """The answer of a step that a token stands for."""
    return next((answer for answer in step.answers if answer.token == token), None)


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

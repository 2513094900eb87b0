"""Which supply works and which does not, when somebody sets one against the other?"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Final

from kb.search.concepts import Mention, Mentions
from kb.search.vocabulary import DENIED, SUPPLIES, Vocabulary

WELL: Final = "well"
ILL: Final = "ill"
FIRST: Final = "first"

_BEFORE: Final = 3
_TOGETHER: Final = 2


@dataclass(slots=True)
class _Group:
    """Supplies named together, and what is said of them so far."""

    supplies: set[str] = field(default_factory=set)
    last: int = 0
    verdict: bool | None = None


def verdicts(clauses: Iterable[Mentions], vocabulary: Vocabulary) -> frozenset[str]:
    """Concepts such as `heating-ill` and `hot-water-well`, one for each supply that something is said of.

    What goes wrong outweighs what goes right: "hot for a while, then cold" is ill.
    Where one supply is ill and the other is merely named, the contrast says that it is well.
    """
    ill: set[str] = set()
    well: set[str] = set()
    named: set[str] = set()
    first: set[str] = set()
    for group in _groups(clauses, vocabulary):
        named |= group.supplies
        if not first:
            first = {f"{each}-{FIRST}" for each in group.supplies & SUPPLIES}
        if group.verdict is not None:
            (well if group.verdict else ill).update(group.supplies)
    if len(ill & SUPPLIES) == 1:
        well |= named & SUPPLIES
    return frozenset({f"{each}-{ILL}" for each in ill} | {f"{each}-{WELL}" for each in well - ill} | first)


def _groups(clauses: Iterable[Mentions], vocabulary: Vocabulary) -> Iterator[_Group]:
    for mentions in clauses:
        yield from _Reader(vocabulary).read(mentions)


class _Reader:
    """Goes through one clause, keeping the supplies named last and a verdict that waits for its supply."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self._vocabulary = vocabulary
        self._group = _Group()
        self._waiting: tuple[bool, int] | None = None

    def read(self, mentions: Mentions) -> Iterator[_Group]:
        for mention, following in pairwise((*mentions, None)):
            assert mention is not None
            supply, denied = self._supply(mention)
            verdict = self._vocabulary.verdicts.get(mention.concept)
            if supply:
                if denied or not self._joins(mention):
                    yield self._group
                    self._open(mention)
                self._group.supplies.add(supply)
                self._group.last = mention.last
                if denied:
                    self._group.verdict = False
            elif verdict is not None:
                self._judge(verdict, mention, following)
        yield self._group

    def _joins(self, mention: Mention) -> bool:
        group = self._group
        return bool(group.supplies) and group.verdict is None and mention.first - group.last <= _TOGETHER

    def _open(self, mention: Mention) -> None:
        near = self._waiting is not None and mention.first - self._waiting[1] <= _BEFORE
        self._group = _Group(verdict=self._waiting[0] if self._waiting and near else None)
        self._waiting = None

    def _judge(self, verdict: bool, mention: Mention, following: Mention | None) -> None:
        group = self._group
        # "heating ok, cold taps" without its comma: the verdict belongs to what stands right behind it.
        leans_on = following is not None and following.first == mention.last + 1 and self._supply(following)[0]
        if not group.supplies or (group.verdict is not None and leans_on):
            self._waiting = (verdict, mention.last)
        elif group.verdict is not False:
            group.verdict = verdict

    def _supply(self, mention: Mention) -> tuple[str | None, bool]:
        name = mention.concept.removeprefix(DENIED)
        return self._vocabulary.subjects.get(name), name != mention.concept

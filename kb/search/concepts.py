"""Which things and states does a text name, and which of them does it say are not so?"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final, TypeAlias

from kb.search.figures import MARK
from kb.search.text import Clause
from kb.search.vocabulary import DENIED, GAP, LONGEST_GAP, NOT, SUPPLIES, Phrase, Vocabulary

_NOT_DOING: Final = "not-doing"
_WITHOUT: Final = "without"
_IDLE: Final = "wont-on"
_REACH: Final = 8
_REACH_OF_WITHOUT: Final = 3
_CLOSE: Final = 2


@dataclass(frozen=True, slots=True)
class Mention:
    """A concept, and the places of the first and the last word that name it."""

    concept: str
    first: int
    last: int


Mentions: TypeAlias = tuple[Mention, ...]
"""Everything a clause names, in its order."""


class Recogniser:
    """Finds the concepts of a vocabulary in clauses whose words are already spelt well."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        """Read with this vocabulary."""
        self._vocabulary = vocabulary

    def read(self, clause: Clause) -> Mentions:
        """What a clause says is so, and, marked as denied, what it says is not."""
        found = self._found([word if word.startswith(MARK) else self._vocabulary.root(word) for word in clause])
        return self._deny(found)

    def _found(self, roots: Sequence[str]) -> list[Mention]:
        found: list[Mention] = []
        present = frozenset(roots)
        used = [False] * len(roots)
        for at, root in enumerate(roots):
            if used[at]:
                continue
            if root.startswith(MARK):
                found.append(Mention(root[len(MARK) :], at, at))
                continue
            found += self._named_at(roots, present, at, used)
        return found

    def _named_at(self, roots: Sequence[str], present: frozenset[str], at: int, used: list[bool]) -> list[Mention]:
        weight = (0, 0)
        taken: tuple[int, ...] = ()
        named: list[Mention] = []
        for phrase in self._vocabulary.phrases.get(roots[at], ()):
            if phrase.weight < weight:
                break
            places = self._places(phrase, roots, at, used) if phrase.needs <= present else None
            if places:
                weight, taken = phrase.weight, places
                named.append(Mention(phrase.concept, places[0], places[-1]))
        for place in taken:
            used[place] = True
        return named

    def _places(self, phrase: Phrase, roots: Sequence[str], at: int, used: Sequence[bool]) -> tuple[int, ...] | None:
        """Where the words of a phrase stand, beginning at `at`; None if they do not."""
        places: list[int] = []
        room = 0
        for wanted in phrase.roots:
            if wanted == GAP:
                room = LONGEST_GAP
                continue
            reach = range(at, min(at + room + 1, len(roots)))
            place = next((p for p in reach if not used[p] and self._is(roots[p], wanted)), None)
            if place is None:
                return None
            places.append(place)
            at, room = place + 1, 0
        return tuple(places)

    def _is(self, root: str, wanted: str) -> bool:
        return root in self._vocabulary.not_doing if wanted == NOT else root == wanted

    def _deny(self, found: list[Mention]) -> Mentions:
        """Take each "no" out of the mentions and let it work on what it belongs to."""
        said = [mention for mention in found if mention.concept not in (_NOT_DOING, _WITHOUT)]
        idle: list[Mention] = []
        for no in (mention for mention in found if mention.concept in (_NOT_DOING, _WITHOUT)):
            for at in tuple(self._denied_by(no, said)):
                if self._vocabulary.is_device(said[at].concept):
                    # "the boiler won't" is about a boiler that is there all the same.
                    idle.append(replace(said[at], concept=_IDLE, first=no.first, last=no.last))
                else:
                    said[at] = self._turned(said[at])
        return tuple(sorted((*said, *idle), key=lambda mention: mention.first))

    def _denied_by(self, no: Mention, said: Sequence[Mention]) -> Iterator[int]:
        after = [at for at, mention in enumerate(said) if 0 < mention.first - no.last <= _REACH]
        if no.concept == _WITHOUT:
            near = [at for at in after if said[at].first - no.last <= _REACH_OF_WITHOUT]
            near = [at for at in near if said[at].first == said[near[0]].first]
            # "hot water yes, heating no" has its "no" behind it.
            yield from near or ([len(said) - 1] if not after and self._is_subject(said[-1:]) else [])
            yield from self._joined(near, said)
            return
        if after and said[after[0]].first - no.last <= _CLOSE and said[after[0]].concept in self._vocabulary.steady:
            return
        states = [at for at in after if self._is_state(said[at])]
        if states and self._of_another(said, after, states[0]):
            # "can't get a hot shower heat is grand": what is grand is the heat.
            yield after[0]
            return
        if states:
            yield from (at for at in states if said[at].first == said[states[0]].first)
            return
        subjects = self._vocabulary.subjects
        following = [at for at in after if said[at].concept in subjects]
        before = [at for at, mention in enumerate(said) if mention.last < no.first and mention.concept in subjects]
        yield from following[:1] or before[-1:]

    def _of_another(self, said: Sequence[Mention], after: Sequence[int], state: int) -> bool:
        """Whether the state behind a "no" belongs to another supply than the one that stands first."""
        supplies = [at for at in after if at < state and self._vocabulary.subjects.get(said[at].concept) in SUPPLIES]
        if len(supplies) < 2 or supplies[0] != after[0]:
            return False
        first, following = said[supplies[0]], said[supplies[1]]
        differ = self._vocabulary.subjects[first.concept] != self._vocabulary.subjects[following.concept]
        # With a word between them they are joined: "can't get heating or hot water working".
        return differ and following.first - first.last != _CLOSE

    def _joined(self, near: Sequence[int], said: Sequence[Mention]) -> Iterator[int]:
        """The next subject, where it stands right behind: "no heating or hot water"."""
        for at in near:
            is_next = at + 1 < len(said) and said[at + 1].first - said[at].last <= 2
            if is_next and {said[at].concept, said[at + 1].concept} <= self._vocabulary.subjects.keys():
                yield at + 1

    def _is_subject(self, mentions: Sequence[Mention]) -> bool:
        return any(mention.concept in self._vocabulary.subjects for mention in mentions)

    def _is_state(self, mention: Mention) -> bool:
        return mention.concept in self._vocabulary.opposites

    def _turned(self, mention: Mention) -> Mention:
        concept = mention.concept
        if concept in self._vocabulary.steady or concept.startswith(DENIED):
            return mention
        return replace(mention, concept=self._vocabulary.opposites.get(concept, DENIED + concept))

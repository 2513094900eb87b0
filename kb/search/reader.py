"""What do somebody's words say, once spelling, figures, denials and contrasts are understood?"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from kb.search.concepts import Mentions, Recogniser
from kb.search.contrast import verdicts
from kb.search.figures import Figures
from kb.search.spelling import Speller
from kb.search.text import Clause, clauses
from kb.search.vocabulary import Vocabulary


@dataclass(frozen=True, slots=True)
class Reading:
    """A text as concepts: clause by clause, in each two clauses that follow one another, and in the whole.

    `breaths` are read twice: once with every phrase, once with those alone that bear on a danger.
    `roots` are the words that are looked up in the articles' own words.
    """

    clauses: tuple[frozenset[str], ...]
    breaths: tuple[frozenset[str], ...]
    whole: frozenset[str]
    roots: tuple[str, ...]


class Reader:
    """Reads texts with one vocabulary, repairing words against it and against the library's own."""

    def __init__(self, vocabulary: Vocabulary, figures: Figures, library_words: Iterable[str] = ()) -> None:
        """Know the words of the vocabulary and of the library."""
        self._vocabulary = vocabulary
        self._figures = figures
        self._speller = Speller({*vocabulary.spelt, *library_words}, vocabulary.left_alone, vocabulary.root)
        self._recogniser = Recogniser(vocabulary)
        self._watchman = Recogniser(vocabulary.watching())

    def read(self, text: str) -> Reading:
        """The concepts and the words of a text."""
        spelt = [tuple(map(self._speller.repair, clause)) for clause in clauses(text)]
        figured = self._figures.read(spelt)
        mentions = [self._recogniser.read(clause) for clause in figured]
        supplies = verdicts(mentions, self._vocabulary)
        named = _concepts(mentions)
        watched = _concepts(map(self._watchman.read, figured))
        return Reading(
            clauses=tuple(clause | supplies for clause in named),
            breaths=(*_breaths(named), *_breaths(watched)),
            whole=supplies.union(*named),
            roots=self._roots(spelt),
        )

    def _roots(self, spelt: Iterable[Clause]) -> tuple[str, ...]:
        roots = (self._vocabulary.root(word) for clause in spelt for word in clause)
        return tuple(root for root in dict.fromkeys(roots) if root not in self._vocabulary.empty_words)


def _concepts(clauses: Iterable[Mentions]) -> tuple[frozenset[str], ...]:
    return tuple(frozenset(mention.concept for mention in clause) for clause in clauses)


def _breaths(named: tuple[frozenset[str], ...]) -> Iterator[frozenset[str]]:
    return (first | second for first, second in pairwise((*named, frozenset[str]())))

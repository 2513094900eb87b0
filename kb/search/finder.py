"""Which articles belong to somebody's words, and do the words mean danger?"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from typing import Final

from kb.article import Article, Audience
from kb.header import Kind
from kb.library import Library
from kb.prose import Block
from kb.search import evidence
from kb.search.codelike import codes_in
from kb.search.engine import Page, TextIndex
from kb.search.figures import load_figures
from kb.search.found import NO_FACTS, Found, Hit
from kb.search.questions import load_questions, settling
from kb.search.reader import Reader, Reading
from kb.search.text import clauses
from kb.search.vocabulary import Vocabulary, load

FINDABLE: Final = frozenset({Kind.FAULT, Kind.HOW_TO})
"""The kinds of article that a search may lead to; the others come up by themselves."""

_MOST_BY_TEXT: Final = 3.0
_HALF_WAY: Final = 25.0
_LEAST: Final = 0.2

LEAST_MEANT: Final = 0.8
"""The points that words must earn by what they mean before an article is named for them."""

LEAST_WRONG: Final = 4.0
"""The same where somebody is buying or choosing: named things alone must not reach it."""

LEAST_SAID: Final = 0.5
"""Short of that, the share of the words that one article's title and "also said" must hold."""

_LEAST_WORDS: Final = 2


class ArticleFinder:
    """Finds by what people's words mean, and among equals by the words of the articles themselves."""

    def __init__(self, library: Library, vocabulary: Vocabulary) -> None:
        """Read the library once; it is never looked at again."""
        self._vocabulary = vocabulary
        self._articles = [article for article in library.articles.values() if article.header.kind in FINDABLE]
        pages = [self._page(article) for article in self._articles]
        self._said = [frozenset((*page.title, *page.said)) for page in pages]
        words = {word for article in self._articles for word in _words(_spoken(article))}
        self._reader = Reader(vocabulary, load_figures(), words)
        self._text = TextIndex(pages)
        self._questions = load_questions()

    def find(self, words: str, facts: Mapping[str, str] = NO_FACTS, limit: int = 8) -> Found:
        """The articles that fit best, among those that the known facts of a home do not rule out."""
        reading = self._reader.read(words)
        # Every article is ranked: one left out would lose the points that its words earn.
        shared = self._text.rank(reading.roots, len(self._articles))
        points = evidence.points(reading, self._vocabulary)
        scores = self._scores(points, shared)
        offered = [article for article in self._articles if article.suits(facts)]
        fitting = [article for article in offered if scores[article.id] >= _LEAST]
        fitting.sort(key=lambda article: (-scores[article.id], article.header.often or 99, article.id))
        danger = evidence.dangers(reading, self._vocabulary)
        named = fitting[:limit] if danger or self._understood(reading, points) else []
        hits = tuple(Hit(article.id, round(scores[article.id], 2)) for article in named)
        question = None if danger else settling(hits, self._questions, {article.id for article in offered})
        return Found(danger, hits, codes_in(words), question)

    def _understood(self, reading: Reading, points: Mapping[str, float]) -> bool:
        """Whether the words say enough to name an article; a wild guess would lead somebody astray."""
        if evidence.is_elsewhere(reading, self._vocabulary):
            return False
        most = max((points.get(_target(article), 0.0) for article in self._articles), default=0.0)
        if self._vocabulary.shopping & reading.whole:
            return most >= LEAST_WRONG
        if most >= LEAST_MEANT:
            return True
        roots = frozenset(reading.roots)
        shared = max((len(roots & said) for said in self._said), default=0)
        return shared >= max(min(_LEAST_WORDS, len(roots)), LEAST_SAID * len(roots), 1)

    def _scores(self, points: Mapping[str, float], text: Mapping[str, float]) -> Mapping[str, float]:
        scores: defaultdict[str, float] = defaultdict(float)
        for article in self._articles:
            scores[article.id] = max(0.0, points.get(_target(article), 0.0))
        for article_id, shared in text.items():
            scores[article_id] += _MOST_BY_TEXT * shared / (shared + _HALF_WAY)
        return scores

    def _page(self, article: Article) -> Page:
        return Page(
            id=article.id,
            title=self._roots([article.title]),
            said=self._roots(article.header.also_said),
            steps=self._roots(_steps(article)),
        )

    def _roots(self, texts: Iterable[str]) -> list[str]:
        roots = (self._vocabulary.root(word) for word in _words(texts))
        return [root for root in roots if root not in self._vocabulary.empty_words]


def build(library: Library) -> ArticleFinder:
    """A finder for a library, built once and used by every thread."""
    return ArticleFinder(library, load())


def _target(article: Article) -> str:
    """What signs speak for: a fault's category, any other article's id."""
    return article.header.category or article.id


def _steps(article: Article) -> Iterator[str]:
    """What a household may read in an article; an engineer's words are never looked into."""
    yield from _texts(article.intro)
    for step in article.steps:
        if step.audience is Audience.HOUSEHOLD:
            yield step.title
            yield from _texts(step.body)
            yield from (answer.text for answer in step.answers)


def _spoken(article: Article) -> Iterator[str]:
    yield article.title
    yield from article.header.also_said


def _texts(blocks: Iterable[Block]) -> Iterator[str]:
    return (block.text for block in blocks)


def _words(texts: Iterable[str]) -> Iterator[str]:
    for text in texts:
        for clause in clauses(text):
            yield from clause

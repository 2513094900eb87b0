"""What does a search give back?"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Final, Protocol

NO_FACTS: Final[Mapping[str, str]] = MappingProxyType({})
"""Nothing is known about the home."""

DANGERS: Final = ("gas-smell", "carbon-monoxide", "fire", "electric", "water-steam")
"""Every danger that words can show, the most pressing first."""


@dataclass(frozen=True, slots=True)
class Hit:
    """An article's id, and how well it fits; scores compare within one search only."""

    article: str
    score: float


@dataclass(frozen=True, slots=True)
class Answered:
    """One answer to a short question, and the article that it speaks for."""

    words: str
    article: str


@dataclass(frozen=True, slots=True)
class Question:
    """A short question that settles a tie better than a list of titles does."""

    words: str
    answers: tuple[Answered, ...]


@dataclass(frozen=True, slots=True)
class Found:
    """What somebody's words may mean.

    `danger` names the dangers of `DANGERS` that come before everything else.
    `code` holds what looks like the code of a display, without spaces and in capitals.
    `question` settles a tie between the two best hits; none is asked beside a danger.
    """

    danger: tuple[str, ...]
    hits: tuple[Hit, ...]
    code: tuple[str, ...] = ()
    question: Question | None = None


class Finder(Protocol):
    """Anything that finds articles for people's words."""

    def find(self, words: str, facts: Mapping[str, str] = NO_FACTS, limit: int = 8) -> Found:
        """The articles that fit best, among those that the known facts of a home do not rule out."""
        ...


def to_json(found: Found) -> dict[str, Any]:
    """The form in which a search is printed and sent."""
    hits = [{"article": hit.article, "score": hit.score} for hit in found.hits]
    asked = found.question
    answers = [{"words": each.words, "article": each.article} for each in asked.answers] if asked else []
    question = {"words": asked.words, "answers": answers} if asked else None
    return {"danger": list(found.danger), "hits": hits, "question": question}

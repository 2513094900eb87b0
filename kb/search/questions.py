"""Which short question settles a search whose two best articles are about as likely?"""

import tomllib
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from kb.search.found import Answered, Hit, Question

HERE: Final = Path(__file__).parent / "english" / "questions.toml"

TIED: Final = 0.75
"""A second hit with this share of the first one's score is about as likely.

About one search in ten ties so, over a thousand phrasings of faults.
"""


@dataclass(frozen=True, slots=True)
class Asked:
    """A question as it is written: its words, and under each answer the articles that it speaks for."""

    words: str
    answers: tuple[tuple[str, tuple[str, ...]], ...]

    def place_of(self, article: str) -> int | None:
        """Which answer speaks for an article."""
        return next((place for place, (_, leads) in enumerate(self.answers) if article in leads), None)


def load_questions(file: Path = HERE) -> tuple[Asked, ...]:
    """Every question, in the order in which they are tried."""
    written = tomllib.loads(file.read_text(encoding="utf-8"))["questions"]
    return tuple(
        Asked(each["ask"], tuple((answer["say"], tuple(answer["leads"])) for answer in each["answers"]))
        for each in written
    )


def settling(hits: Sequence[Hit], questions: Sequence[Asked], offered: Collection[str]) -> Question | None:
    """The first question that has the two best hits under different answers, if they are tied.

    An answer is left out where none of its articles is offered to this home.
    """
    if len(hits) < 2 or hits[1].score < TIED * hits[0].score:
        return None
    first, second = hits[0].article, hits[1].article
    for asked in questions:
        places = asked.place_of(first), asked.place_of(second)
        if None not in places and places[0] != places[1]:
            return _question(asked, {hit.article: hit.score for hit in hits}, offered)
    return None


def _question(asked: Asked, scores: Mapping[str, float], offered: Collection[str]) -> Question:
    """The question, each answer leading to the likeliest of its articles."""
    answers = [(say, [each for each in leads if each in offered]) for say, leads in asked.answers]
    return Question(
        asked.words,
        tuple(Answered(say, max(leads, key=lambda each: scores.get(each, 0.0))) for say, leads in answers if leads),
    )

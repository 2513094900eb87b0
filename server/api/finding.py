"""What was found for words and codes, as JSON."""

from typing import Self

from pydantic import BaseModel, Field, model_validator

from kb.codes import Weighed
from kb.home import Home
from kb.inquiry import Inquiry
from kb.search import NO_FACTS
from kb.search.found import Question
from server.site import Site


class Asked(BaseModel):
    """What somebody says, what their display shows, or both."""

    words: str = Field("", max_length=500)
    code: str = Field("", max_length=60)

    @model_validator(mode="after")
    def _something(self) -> Self:
        if not (self.words or self.code):
            raise ValueError("give words, a code, or both")
        return self


class HitOut(BaseModel):
    """An article that was found for the words, and how well it fits."""

    article: str
    title: str
    score: float


class AnsweredOut(BaseModel):
    """One answer to a short question, and the article that it speaks for."""

    words: str
    article: str


class QuestionOut(BaseModel):
    """A short question that settles a tie between the two best hits."""

    words: str
    answers: list[AnsweredOut]


class CodeOut(BaseModel):
    """A code that the display may show, and how safely it can be gone by."""

    shown: str
    range: str
    category: str
    certainty: str
    safety: str
    plausible: bool
    may_reset: bool
    why: str


class FoundOut(BaseModel):
    """What was found.

    `danger` comes first and is never empty where the words or the code may mean danger.
    `said` is to be read out as it stands, and `articles` are in the order to offer them: words before codes.
    """

    danger: list[str]
    said: list[str]
    articles: list[str]
    hits: list[HitOut]
    question: QuestionOut | None
    codes: list[CodeOut]


class Finding:
    """Finds for one site."""

    def __init__(self, site: Site) -> None:
        """Find in what `site` holds."""
        self._titles = {article.id: article.title for article in site.library.articles.values()}
        self._inquiry = Inquiry(site.library, site.finder, site.ranges)

    def find(self, asked: Asked, home: Home | None = None) -> FoundOut:
        """What was found for what somebody asked, in a home that may be known."""
        facts = home.known.facts if home else NO_FACTS
        told = self._inquiry.ask(asked.words, asked.code, home.range if home else "", facts)
        return FoundOut(
            danger=list(told.danger),
            said=list(told.said.all),
            articles=list(told.articles),
            hits=[HitOut(article=h.article, title=self._titles[h.article], score=h.score) for h in told.found.hits],
            question=_question(told.question),
            codes=[_code(each) for each in told.weighed],
        )


def _question(asked: Question | None) -> QuestionOut | None:
    if asked is None:
        return None
    answers = [AnsweredOut(words=each.words, article=each.article) for each in asked.answers]
    return QuestionOut(words=asked.words, answers=answers)


def _code(each: Weighed) -> CodeOut:
    reading = each.reading
    return CodeOut(
        shown=reading.code.shown,
        range=reading.range.id,
        category=reading.category,
        certainty=_word(reading.certainty.name),
        safety=_word(each.safety.name),
        plausible=each.plausible,
        may_reset=each.may_reset,
        why=each.why,
    )


def _word(name: str) -> str:
    return name.lower().replace("_", "-")

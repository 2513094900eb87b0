"""Somebody gives words, a code, or both: what are they told, and which articles come first?"""

import re
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from kb.appliance import Display, Range
from kb.article import Article, Audience
from kb.code_words import CodeWords, named, said
from kb.codes import Certainty, Reading, Safety, Weighed, candidates, weigh
from kb.library import Library
from kb.search.codelike import besides_codes
from kb.search.found import DANGERS, NO_FACTS, Finder, Found, Question

MOST_HITS: Final = 5
"""More than this, and a list settles nothing."""

_BEFORE_A_CODE: Final = 3
_OF_A_DISPLAY: Final = re.compile(r"\b(?:screen|display|panel|message|shows?|says?|reads?|code)\b", re.IGNORECASE)
_DOUBTS_WORTH_A_LOOK: Final = Certainty.ONE_SEGMENT


@dataclass(frozen=True, slots=True)
class Told:
    """The answer to somebody's words or code.

    `danger` comes before everything; `said` is what is told of the display; `articles` are
    ids in the order to offer them; `weighed` are the readings behind it all, and `found` is what the words gave.
    """

    danger: tuple[str, ...]
    said: CodeWords
    articles: tuple[str, ...]
    weighed: tuple[Weighed, ...]
    found: Found

    @property
    def question(self) -> Question | None:
        """The short question that settles a tie; none beside a danger or a code, which settle more."""
        return None if self.danger or self.weighed else self.found.question

    def shown_for(self, article: str) -> tuple[str, ...]:
        """What a display would have to show for this article to be the one."""
        return tuple(dict.fromkeys(named(each) for each in self.weighed if each.reading.category == article))


class Inquiry:
    """Answers for one library, its search, and the ranges a firm looks after."""

    def __init__(self, library: Library, finder: Finder, ranges: Mapping[str, Range]) -> None:
        """Answer from these."""
        self._library = library
        self._finder = finder
        self._ranges = ranges

    def ask(self, words: str, code: str = "", range: str = "", facts: Mapping[str, str] = NO_FACTS) -> Told:
        """What somebody is told who gives words, or what a display shows, or both.

        What a person sees, hears and smells outvotes a code: the articles for their words come first.
        An unknown code leads on by whatever words it holds.
        """
        found = self._finder.find(f"{words} {code}".strip(), facts)
        weighed = weigh(*self._readings(words, code, range, found.code))
        symptoms = besides_codes(words) if words else "" if weighed else besides_codes(code)
        hits = self._hits(symptoms, words, found, facts)
        worth = [each for each in weighed if _worth_showing(each, weighed)]
        return Told(
            danger=_dangers(found, worth),
            said=said(code, worth),
            articles=tuple(_in_turn(hits, list(self._by_code(worth)))),
            weighed=tuple(worth),
            found=found,
        )

    def _readings(self, words: str, code: str, range: str, in_words: Iterable[str]) -> list[Sequence[Reading]]:
        """The readings of each thing that a display may have been said to show."""
        own = self._ranges.get(range)
        ranges = [own] if own else list(self._ranges.values())
        typed = [code] if code else list(in_words)
        if not code and own is not None and own.display is Display.TEXT and _OF_A_DISPLAY.search(words):
            typed.append(words)
        return [candidates(each, ranges) for each in typed]

    def _hits(self, symptoms: str, words: str, found: Found, facts: Mapping[str, str]) -> list[str]:
        if not symptoms:
            return []
        # Without the code: its figures would be taken for degrees or bar.
        hits = found.hits if symptoms == words else self._finder.find(symptoms, facts).hits
        return [hit.article for hit in hits[:MOST_HITS]]

    def _by_code(self, weighed: Sequence[Weighed]) -> Iterator[str]:
        for each in weighed:
            article = self._library.articles.get(each.reading.category)
            if article is not None and (each.may_reset or each.safety is Safety.DANGER or not _offers_reset(article)):
                yield article.id


def _offers_reset(article: Article) -> bool:
    household = (step for step in article.steps if step.audience is Audience.HOUSEHOLD)
    return any(step.limit is not None and step.limit.action == "reset" for step in household)


def _worth_showing(each: Weighed, others: Collection[Weighed]) -> bool:
    """Whether a reading helps: a doubt about a code that is known as it stands does, if it would change what to do."""
    if each.plausible:
        return True
    worst = min(other.safety for other in others if other.plausible)
    changes = each.safety < worst or each.safety is worst is Safety.LOOK
    return changes and each.reading.certainty >= _DOUBTS_WORTH_A_LOOK


def _dangers(found: Found, weighed: Iterable[Weighed]) -> tuple[str, ...]:
    by_code = {each.reading.category for each in weighed if each.safety is Safety.DANGER}
    return tuple(danger for danger in DANGERS if danger in found.danger or danger in by_code)


def _in_turn(hits: Sequence[str], by_code: Sequence[str]) -> Iterator[str]:
    """Words before codes, but no code so far down that nobody comes to it."""
    yield from dict.fromkeys((*hits[:_BEFORE_A_CODE], *by_code, *hits[_BEFORE_A_CODE:]))

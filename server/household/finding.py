"""The page to begin on, and what was found for somebody's words or code."""

from collections.abc import Iterator, Sequence
from typing import Final

from kb.article import Article
from kb.code_words import either
from kb.days import full_day
from kb.facts import NOTHING_KNOWN
from kb.home import PLACES, Home
from kb.inquiry import Inquiry
from kb.search import NO_FACTS, Answered
from server.household.compose import base_of
from server.household.dangers import panel
from server.household.gauges import drawn_gauge
from server.household.pages import Choice, Detail, FindPage, KeyPage, StartPage
from server.site import Site
from server.web.frame import frame

OFTEN: Final = 10
"""How many signs are shown before the rest is asked for: about a screen."""


class FrontDoor:
    """Makes the first page and the pages of what was found, for one site."""

    def __init__(self, site: Site) -> None:
        """Find in what `site` holds."""
        self.site = site
        self.inquiry = Inquiry(site.library, site.finder, site.ranges)

    def start(self, home: Home | None) -> StartPage:
        """What is wrong? With what is written on the card, behind a home's key."""
        around = frame(self.site, base_of(home))
        known = home.known if home else NOTHING_KNOWN
        facts = known.facts
        sealed = facts.get("system") == "sealed"
        return StartPage(
            frame=around,
            choices=tuple(self._choice(article, around.base) for article in self._offered(home)),
            often=OFTEN,
            how_tos=tuple(self._choice(each, around.base) for each in self.site.library.how_tos() if each.suits(facts)),
            appliance=home.appliance if home else "",
            details=tuple(_details(home)) if home else (),
            gauge=drawn_gauge(known.marks, None) if sealed else "",
        )

    def find(self, words: str, code: str, home: Home | None) -> FindPage:
        """What was found for words, or for the code a display shows."""
        around = frame(self.site, base_of(home))
        known = home.known.facts if home else NO_FACTS
        told = self.inquiry.ask(words, code, home.range if home else "", known)
        question = told.question
        articles = [self.site.library.articles[each] for each in told.articles]
        return FindPage(
            frame=around,
            words=words,
            code=code,
            danger=panel(self.site, told.danger, around.base),
            unknown=told.said.unknown,
            stop=told.said.stop,
            calm=told.said.calm,
            asks=question.words if question else "",
            answers=tuple(self._answer(answer, around.base) for answer in question.answers) if question else (),
            choices=tuple(self._choice(each, around.base, _shows(told.shown_for(each.id))) for each in articles),
            others=tuple(self._choice(a, around.base) for a in self._offered(home) if a not in articles),
        )

    def key(self, typed: str, wrong: bool) -> KeyPage:
        """Type the key from the card."""
        notice = "This is not a key from one of our cards. A key has three groups of five." if wrong else ""
        return KeyPage(frame=frame(self.site), typed=typed, alert=notice)

    def _offered(self, home: Home | None) -> list[Article]:
        facts = home.known.facts if home else {}
        return [article for article in self.site.library.faults() if article.suits(facts)]

    def _answer(self, answer: Answered, base: str) -> Choice:
        return Choice(answer.words, f"{base}/help/{answer.article}")

    def _choice(self, article: Article, base: str, hint: str = "") -> Choice:
        return Choice(article.title, f"{base}/help/{article.id}", hint)


def _shows(codes: Sequence[str]) -> str:
    """Which codes a display would have to show for an article to be the one."""
    return f"if it shows {either(codes)}" if codes else ""


def _details(home: Home) -> Iterator[Detail]:
    for place, words in home.places.items():
        yield Detail(PLACES[place][:1].upper() + PLACES[place][1:], words)
    if home.next_service:
        yield Detail("Next service", full_day(home.next_service))

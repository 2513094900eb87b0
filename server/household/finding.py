"""The page to begin on, and what was found for somebody's words or code."""

from collections.abc import Iterator, Sequence
from typing import Final

from kb.appliance import ENGINEER_ONLY, NO_FAULT, Clears
from kb.article import Article
from kb.codes import Certainty, Reading, candidates, no_code
from kb.facts import NOTHING_KNOWN
from kb.home import PLACES, Home
from kb.search import Answered
from server.household.compose import base_of
from server.household.dangers import panel
from server.household.gauges import drawn_gauge
from server.household.pages import Choice, Detail, FindPage, KeyPage, StartPage
from server.site import Site
from server.web.frame import frame

OFTEN: Final = 10
"""How many signs are shown before the rest is asked for: about a screen."""

MOST_HITS: Final = 5
"""More than this, and a list settles nothing."""


class FrontDoor:
    """Makes the first page and the pages of what was found, for one site."""

    def __init__(self, site: Site) -> None:
        """Find in what `site` holds."""
        self.site = site

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
        found = self.site.finder.find(words or code, dict(home.known.facts) if home else {})
        readings = [reading for typed in ([code] if code else found.code) for reading in self._readings(typed, home)]
        ids = list(dict.fromkeys(reading.category for reading in readings))
        ids += [hit.article for hit in found.hits[:MOST_HITS] if hit.article not in ids] if words else []
        question = found.question if words and not readings else None
        articles = [self.site.library.articles[each] for each in ids if each in self.site.library.articles]
        return FindPage(
            frame=around,
            words=words,
            code=code,
            danger=panel(self.site, found.danger, around.base),
            said=tuple(_said(code, readings)),
            asks=question.words if question else "",
            answers=tuple(self._answer(answer, around.base) for answer in question.answers) if question else (),
            choices=tuple(self._choice(article, around.base, _shows(article, readings)) for article in articles),
            others=tuple(self._choice(a, around.base) for a in self._offered(home) if a not in articles),
        )

    def key(self, typed: str, wrong: bool) -> KeyPage:
        """Type the key from the card."""
        notice = "This is not a key from one of our cards. A key has three groups of five." if wrong else ""
        return KeyPage(frame=frame(self.site), typed=typed, alert=notice)

    def _readings(self, code: str, home: Home | None) -> tuple[Reading, ...]:
        ranges = self.site.ranges
        return candidates(code, [ranges[home.range]] if home and home.range in ranges else ranges.values())

    def _offered(self, home: Home | None) -> list[Article]:
        facts = home.known.facts if home else {}
        return [article for article in self.site.library.faults() if article.suits(facts)]

    def _answer(self, answer: Answered, base: str) -> Choice:
        return Choice(answer.words, f"{base}/help/{answer.article}")

    def _choice(self, article: Article, base: str, hint: str = "") -> Choice:
        return Choice(article.title, f"{base}/help/{article.id}", hint)


def _shows(article: Article, readings: Sequence[Reading]) -> str:
    """Which codes a display would have to show for this article to be the one."""
    codes = dict.fromkeys(reading.code.code for reading in readings if reading.category == article.id)
    return f"if it shows {' or '.join(codes)}" if codes else ""


def _said(typed: str, readings: Sequence[Reading]) -> Iterator[str]:
    """What the display may say that leads to no article."""
    value = no_code(typed) if not any(reading.certainty is Certainty.SAME for reading in readings) else None
    if value:
        yield f"That may be no code at all, but {value}."
    for reading in readings:
        shown = f"{reading.code.code} on a {reading.range.name}"
        if reading.category == ENGINEER_ONLY:
            yield f"{shown} needs an engineer. Do not reset. Call us today."
        elif reading.category == NO_FAULT and reading.code.clears is Clears.ENGINEER:
            yield f"{shown} is no fault. It asks for a service. You may use the boiler."
        elif reading.category == NO_FAULT:
            yield f"{shown} is no fault. It clears by itself."


def _details(home: Home) -> Iterator[Detail]:
    for place, words in home.places.items():
        yield Detail(PLACES[place][:1].upper() + PLACES[place][1:], words)
    if home.next_service:
        yield Detail("Next service", f"{home.next_service.day} {home.next_service:%B %Y}")

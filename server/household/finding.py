"""The page to begin on, and what was found for somebody's words or code."""

from typing import Final

from kb.article import Article
from kb.codes import candidates
from kb.facts import NOTHING_KNOWN
from kb.home import PLACES, Home
from server.household.compose import base_of
from server.household.gauges import drawn_gauge
from server.household.pages import Alarm, Choice, Detail, FindPage, KeyPage, StartPage
from server.site import Site
from server.web.frame import frame

ALARMS: Final = {
    "gas-smell": "Can you smell gas, or hear it hiss?",
    "carbon-monoxide": "Is an alarm sounding? Do you feel ill? Are there fumes or soot?",
}
"""What a danger panel asks, by the emergency the words may mean."""


class Finder:
    """Makes the first page and the pages of what was found, for one site."""

    def __init__(self, site: Site) -> None:
        """Find in what `site` holds."""
        self.site = site

    def start(self, home: Home | None) -> StartPage:
        """What is wrong? With what is written on the card, behind a home's key."""
        around = frame(self.site, base_of(home))
        known = home.known if home else NOTHING_KNOWN
        sealed = home is not None and known.facts.get("system") == "sealed"
        return StartPage(
            frame=around,
            choices=tuple(self._choice(article, around.base) for article in self._offered(home)),
            appliance=home.appliance if home else "",
            details=tuple(_details(home)) if home else (),
            gauge=drawn_gauge(known.marks, None) if sealed else "",
        )

    def find(self, words: str, code: str, home: Home | None) -> FindPage:
        """What was found for words, or for the code a display shows."""
        around = frame(self.site, base_of(home))
        found = self.site.finder.find(words or code, dict(home.known.facts) if home else {})
        alarms = tuple(Alarm(ALARMS.get(danger, ALARMS["carbon-monoxide"]), f"{around.base}/danger") for danger in found.danger)
        ids = list(self._read_code(code, home)) if code else []
        ids += [hit.article for hit in found.hits if hit.article not in ids] if words else []
        articles = [self.site.library.articles[each] for each in ids if each in self.site.library.articles]
        return FindPage(
            frame=around,
            words=words,
            code=code,
            alarms=alarms[:1],
            choices=tuple(self._choice(article, around.base) for article in articles),
            others=tuple(self._choice(a, around.base) for a in self._offered(home) if a not in articles),
        )

    def key(self, typed: str, wrong: bool) -> KeyPage:
        """Type the key from the card."""
        notice = "This is not a key from one of our cards. A key has three groups of five." if wrong else ""
        return KeyPage(frame=frame(self.site), typed=typed, alert=notice)

    def _read_code(self, code: str, home: Home | None) -> list[str]:
        ranges = self.site.ranges
        own = [ranges[home.range]] if home and home.range in ranges else list(ranges.values())
        return list(dict.fromkeys(reading.category for reading in candidates(code, own)))

    def _offered(self, home: Home | None) -> list[Article]:
        facts = home.known.facts if home else {}
        return [article for article in self.site.library.faults() if article.suits(facts)]

    def _choice(self, article: Article, base: str) -> Choice:
        return Choice(article.title, f"{base}/help/{article.id}")


def _details(home: Home):
    for place, words in home.places.items():
        yield Detail(PLACES[place][:1].upper() + PLACES[place][1:], words)
    if home.next_service:
        yield Detail("Next service", f"{home.next_service.day} {home.next_service:%B %Y}")

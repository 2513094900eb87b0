"""Who rings, which home is it, what is wrong: the pages that are filled in while somebody talks."""

from collections.abc import Iterator, Sequence
from typing import Final

from kb.code_words import either
from kb.desk.events import CALLER_FIELDS, TOLD_FIELDS
from kb.desk.flags import articles
from kb.inquiry import Inquiry, Told
from kb.register import understand
from server.desk.around import around
from server.desk.book import Book, Opened
from server.desk.pages import WhatPage, WhoPage
from server.desk.parts import Choice, Field
from server.staff import Visit
from server.staff.pages import staff_frame
from server.store.register import Hit

WORKS: Final = (("", "Not asked"), ("yes", "Works"), ("partly", "In part"), ("no", "No"))
YES_NO: Final = (("", "Not asked"), ("yes", "Yes"), ("no", "No"))
MOST_FOUND: Final = 9
MOST_CHOICES: Final = 9
NO_HOME: Final = "none"


class Gatherer:
    """Makes the pages that gather."""

    def __init__(self, book: Book) -> None:
        """Gather for the calls of one book."""
        self._book = book
        self._site = book.site
        self.inquiry = Inquiry(self._site.library, self._site.finder, self._site.ranges)

    def who(self, opened: Opened, visit: Visit) -> WhoPage:
        """Who rings, and the homes of their number while it is not known which."""
        phone = "" if opened.home else opened.reading.call.caller.get("phone", "")
        hits = self.find(phone, visit) if phone else ()
        return self._who(opened, visit, hits, looked=bool(phone))

    def found(self, opened: Opened, visit: Visit, keys: Sequence[str], old: str) -> WhoPage:
        """The same with homes that were found."""
        hits = self._site.store.lists.hits(keys, visit.who.name) if keys else ()
        return self._who(opened, visit, hits, looked=True, alert=self._book.old_card(old))

    def nothing(self, opened: Opened, visit: Visit, scrap: str) -> WhoPage:
        """The same where nothing was found."""
        return self._who(opened, visit, (), looked=True, alert=self._book.old_card(scrap), scrap=scrap)

    def _who(
        self, opened: Opened, visit: Visit, hits: Sequence[Hit], looked: bool, alert: str = "", scrap: str = ""
    ) -> WhoPage:
        caller = opened.reading.call.caller
        first = ("phone",)
        rest = [name for name in CALLER_FIELDS if name not in first and not (name == "address" and opened.home)]
        return WhoPage(
            frame=staff_frame(self._site, visit),
            around=around(self._book, opened, visit, alert),
            fields=tuple(_field(name, CALLER_FIELDS[name], caller.get(name, "")) for name in first),
            more=tuple(_field(name, CALLER_FIELDS[name], caller.get(name, "")) for name in rest),
            scrap=scrap,
            found=tuple(_found(hits)),
            looked=looked,
        )

    def what(self, opened: Opened, visit: Visit, reference: str, alert: str) -> WhatPage:
        """What is wrong, and the articles it may be."""
        call = opened.reading.call
        words = " ".join(quoted.words for quoted in call.words)
        code = call.told.get("code", "")
        told = self.ask(opened, words, code) if words or code else None
        offered = list(self._offered(told)) if told else []
        offered += [each for each in articles(self._site.library, call.flags) if each not in offered]
        rest = [each.id for each in self._site.library.faults() if each.id not in offered]
        return WhatPage(
            frame=staff_frame(self._site, visit),
            around=around(self._book, opened, visit, alert),
            words="",
            fields=tuple(_told_field(name, call.told.get(name, "")) for name in TOLD_FIELDS),
            asks=told.question.words if told and told.question else "",
            choices=tuple(self._choices(told, offered)),
            others=tuple(Choice("", self._title(each), each) for each in rest),
            said=(told.said.unknown, *told.said.stop, *told.said.calm) if told else (),
            reference=reference,
        )

    def ask(self, opened: Opened, words: str, code: str) -> Told:
        """What words and a code may mean, in this home."""
        family = opened.home.range if opened.home else ""
        return self.inquiry.ask(words, code, family, opened.known.facts)

    def find(self, scrap: str, visit: Visit) -> Sequence[Hit]:
        """The homes that a scrap may mean."""
        asked = understand(scrap, self._site.firm.region)
        return self._site.store.register.find(asked, visit.who.name, MOST_FOUND)

    def _offered(self, told: Told) -> Iterator[str]:
        asked = [answer.article for answer in told.question.answers] if told.question else []
        known = self._site.library.articles
        yield from [each for each in dict.fromkeys((*asked, *told.articles)) if each in known][:MOST_CHOICES]

    def _choices(self, told: Told | None, offered: Sequence[str]) -> Iterator[Choice]:
        answers = {answer.article: answer.words for answer in told.question.answers} if told and told.question else {}
        for number, article in enumerate(offered, 1):
            shown = told.shown_for(article) if told else ()
            hint = f"if it shows {either(shown)}" if shown else ""
            title = self._title(article)
            said = answers.get(article)
            key = str(number) if number <= MOST_CHOICES else ""
            yield Choice(key, f"{said} ({title})" if said else title, article, hint)

    def _title(self, article: str) -> str:
        return self._site.library.articles[article].title


def _field(name: str, label: str, text: str) -> Field:
    return Field(name, label, text)


def _told_field(name: str, text: str) -> Field:
    options = WORKS if name in ("heating", "hot-water", "hob") else ()
    return Field(name, TOLD_FIELDS[name], text, options)


def _found(hits: Sequence[Hit]) -> Iterator[Choice]:
    for number, hit in enumerate(hits, 1):
        where = ", ".join(filter(None, (*hit.lines, hit.town, hit.postcode)))
        words = ", ".join(hit.names) or where or hit.key
        yield Choice(str(number), words, hit.key, where if hit.names else f"found by {hit.by}")

"""The engineer's part of every article, one step at a time."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar, Final

from fastapi import APIRouter
from starlette.responses import RedirectResponse, Response

from kb.article import Article, Audience, End, Step
from kb.engineering.asking import read_figure
from kb.engineering.span import Span
from kb.facts import NOTHING_KNOWN, PRESSURE_SPAN
from kb.guide import NONE_OF_THESE, By, answer_to
from kb.prose import Block
from kb.staff import Role
from kb.walk import Standing, walk
from server.engineer.book import ROOM
from server.engineer.pages import Link
from server.site import Site
from server.staff import Door, Visit
from server.staff.pages import StaffFrame, staff_frame
from server.web.errors import NotFound
from server.web.pages import Page, answer

LOST: Final = "Part of this page's address can no longer be followed. Go on from here."
UNREAD: Final = "That is no figure on such a gauge. Type it like 1.2, or choose below."


@dataclass(frozen=True, slots=True)
class Given:
    """An answer given on the way, and the way back to its question."""

    question: str
    answer: str
    change: str


@dataclass(frozen=True, slots=True)
class ArticlePage(Page):
    """A step of an article, or an end; before it the article's own words."""

    template: ClassVar[str] = "article.html.j2"
    frame: StaffFrame
    base: str
    about: str
    title: str
    notes: tuple[Block, ...]
    body: tuple[Block, ...]
    choices: tuple[Link, ...]
    asks_reading: bool
    here: str
    pace: str
    given: tuple[Given, ...]
    alert: str


PACE_WORDS: Final = {
    "leave": "Act now, before anything else",
    "make-safe": "Make it safe now",
    "today": "Today",
    "three-days": "Within three working days",
    "routine": "In the usual course",
    "advice": "Nothing more to do",
}
"""How soon, in the engineer's words."""


def routes(site: Site) -> APIRouter:
    """The walk."""
    router = APIRouter()
    view = Door(site).reading(Role.ENGINEER, _Reading(site).show)
    for path in ("/help/{article}", "/help/{article}/{trail}"):
        router.add_api_route(ROOM + path, view, methods=["GET"], response_model=None)
    return router


class _Reading:
    def __init__(self, site: Site) -> None:
        self.site = site

    def show(self, visit: Visit) -> Response:
        """Where a trail leads, or where a typed reading leads from there."""
        parts, query = visit.request.path_params, visit.request.query_params
        article = self.site.library.articles.get(parts["article"])
        if article is None:
            raise NotFound
        start = article.first(Audience.ENGINEER) or article.first(Audience.HOUSEHOLD)
        if start is None:
            raise NotFound
        standing = walk(self.site.library, start, parts.get("trail", ""), audience=Audience.ENGINEER)
        alert = LOST if standing.trouble else ""
        if "reading" in query:
            onward = self._read(article, standing, query["reading"][:20])
            if onward:
                return RedirectResponse(onward, 303)
            alert = UNREAD
        return answer(self._page(visit, article, start, standing, alert), 422 if alert else 200)

    def _read(self, article: Article, standing: Standing, typed: str) -> str:
        """The address a typed reading leads to, or nothing."""
        reading = read_figure("reading", typed.replace(",", "."), Span(*PRESSURE_SPAN, "bar"))
        if not isinstance(standing.at, Step) or not isinstance(reading, float):
            return ""
        found = answer_to(standing.at, reading, NOTHING_KNOWN)
        return f"{ROOM}/help/{article.id}/{standing.trail_with(found, reading)}" if found else ""

    def _page(self, visit: Visit, article: Article, start: Step, standing: Standing, alert: str) -> ArticlePage:
        at, address = standing.at, f"{ROOM}/help/{article.id}"
        first = at == start
        danger = self.site.library.danger
        asking = danger if danger and isinstance(at, Step) and at.article == danger.id else None
        return ArticlePage(
            frame=staff_frame(self.site, visit),
            base=ROOM,
            about=article.title,
            title=asking.title if asking else at.title,
            notes=(*article.intro, *article.notes) if first else (),
            body=asking.intro if asking else at.body,
            choices=tuple(self._choices(at, standing, address)) if isinstance(at, Step) else (),
            asks_reading=isinstance(at, Step) and at.reading is not None,
            here=f"{address}/{standing.trail}" if standing.trail else address,
            pace=PACE_WORDS[at.pace] if isinstance(at, End) else "",
            given=tuple(_given(standing, address)),
            alert=alert,
        )

    def _choices(self, step: Step, standing: Standing, address: str) -> Iterator[Link]:
        danger = self.site.library.danger
        if danger is None or step.article != danger.id:
            for each in step.answers:
                yield Link(each.text, f"{address}/{standing.trail_with(each)}")
            return
        for question in danger.steps:
            if question.audience is Audience.HOUSEHOLD and question.answers:
                yield Link(question.title, f"{address}/{standing.trail_with(question.answers[0])}")
        yield Link("None of these", f"{address}/{NONE_OF_THESE}")


def _given(standing: Standing, address: str) -> Iterator[Given]:
    for place, taken in enumerate(standing.taken):
        if taken.by is By.PERSON and taken.written:
            before = standing.trail_before(place)
            reading = f" ({taken.reading:g} bar)" if taken.reading is not None else ""
            yield Given(taken.step.title, taken.answer.text + reading, f"{address}/{before}" if before else address)

"""Addresses under /api to JSON: the walk as a household has it, and the search."""

from typing import Annotated

from fastapi import APIRouter, Depends, Path, Query, Response
from pydantic import BaseModel

from kb.article import End, Pace, Step
from kb.contact import first_aid_lines, whom
from kb.facts import NOTHING_KNOWN, Known
from kb.guide import By, Trouble
from kb.trail import resume
from kb.walk import Standing
from server.api.finding import Asked, Finding, FoundOut
from server.site import Site
from server.web.asked import home_with, start_of
from server.web.pages import PRIVATE, SECURITY


class AnswerOut(BaseModel):
    """One way on, and the trail that takes it."""

    text: str
    trail: str


class StepOut(BaseModel):
    """The step that waits; for the danger questions, one of them, to be read out one by one."""

    title: str
    text: list[str]
    reading: str | None
    answers: list[AnswerOut]


class PassageOut(BaseModel):
    """Words that several ends share, such as how to keep warm."""

    title: str
    text: list[str]


class EndOut(BaseModel):
    """Where the path stops: how soon, whom to call, what to do first."""

    title: str
    pace: Pace
    call: str
    number: str
    actions: list[str]
    text: list[str]
    passages: list[PassageOut]


class ToldOut(BaseModel):
    """An answer already given, and who gave it."""

    question: str
    answer: str
    by: By


class WalkOut(BaseModel):
    """Where a trail leads."""

    article: str
    trail: str
    danger_questions: bool
    step: StepOut | None
    end: EndOut | None
    told: list[ToldOut]
    trouble: Trouble | None
    emergency: str
    gas: str


def _headers(response: Response) -> None:
    response.headers.update({**SECURITY, "cache-control": PRIVATE})


def routes(site: Site) -> APIRouter:
    """Every address under /api."""
    router = APIRouter(prefix="/api", dependencies=[Depends(_headers)])
    finding = Finding(site)

    @router.get("/find")
    async def find(asked: Annotated[Asked, Query()]) -> FoundOut:
        """Search in people's own words, or by what a display shows."""
        return finding.find(asked)

    @router.get("/h/{key}/find")
    async def find_at_home(key: Annotated[str, Path(max_length=64)], asked: Annotated[Asked, Query()]) -> FoundOut:
        """The same for the home with this key: codes are those of its appliance alone."""
        return finding.find(asked, home_with(site, key))

    @router.get("/walk/{article}")
    @router.get("/walk/{article}/{trail}")
    async def stand(article: str, trail: str = "") -> WalkOut:
        """Where a trail leads in an article, with nothing known about the home."""
        return _walk(site, article, trail, NOTHING_KNOWN)

    @router.get("/h/{key}/walk/{article}")
    @router.get("/h/{key}/walk/{article}/{trail}")
    async def stand_at_home(key: Annotated[str, Path(max_length=64)], article: str, trail: str = "") -> WalkOut:
        """Where a trail leads for the home with this key: what is known of it is not asked."""
        return _walk(site, article, trail, site.known(home_with(site, key)))

    return router


def _walk(site: Site, article: str, trail: str, known: Known) -> WalkOut:
    standing = resume(site.library, start_of(site, article), trail, known).standing
    danger = site.library.danger
    return WalkOut(
        article=article,
        trail=standing.trail,
        danger_questions=danger is not None and standing.at.article == danger.id,
        step=_step(standing.at, standing) if isinstance(standing.at, Step) else None,
        end=_end(site, standing.at, standing) if isinstance(standing.at, End) else None,
        told=[ToldOut(question=t.step.title, answer=t.answer.text, by=t.by) for t in standing.taken],
        trouble=standing.trouble,
        emergency=site.number("emergency"),
        gas=site.number("gas"),
    )


def _step(step: Step, standing: Standing) -> StepOut:
    return StepOut(
        title=step.title,
        text=[block.text for block in step.body],
        reading=step.reading,
        answers=[AnswerOut(text=answer.text, trail=standing.trail_with(answer)) for answer in step.answers],
    )


def _end(site: Site, end: End, standing: Standing) -> EndOut:
    contact = whom(end, site.firm, site.region, standing.facts.get("fuel"))
    return EndOut(
        title=end.title,
        pace=end.pace,
        call=contact.name,
        number=contact.number,
        actions=[do for do, _ in first_aid_lines(end, site.firm, site.region)],
        text=[block.text for block in end.body],
        passages=[
            PassageOut(title=passage.title, text=[block.text for block in passage.body])
            for passage in site.library.passages(end, standing.facts)
        ],
    )

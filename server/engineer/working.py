"""A page for every calculation: its inputs, what came out with the working, its formulas and their sources."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import ClassVar

from fastapi import APIRouter
from starlette.responses import Response

from kb.engineering import manual
from kb.engineering.asking import Problem, ask
from kb.engineering.calculation import Calculation, Choice, Figure, Result
from kb.engineering.calculations import CALCULATIONS
from kb.staff import Role
from server.engineer.book import ROOM
from server.engineer.pages import Link, OptionShown
from server.site import Site
from server.staff import Door, Visit
from server.staff.pages import StaffFrame, staff_frame
from server.web.errors import NotFound
from server.web.pages import Page, answer

LONGEST = 40


@dataclass(frozen=True, slots=True)
class InputShown:
    """One input of a calculation, as it was typed."""

    name: str
    label: str
    help: str
    unit: str
    text: str
    needed: bool
    problem: str
    options: tuple[OptionShown, ...]


@dataclass(frozen=True, slots=True)
class WorkListPage(Page):
    """Every calculation."""

    template: ClassVar[str] = "work_list.html.j2"
    frame: StaffFrame
    calculations: tuple[Link, ...]


@dataclass(frozen=True, slots=True)
class WorkPage(Page):
    """One calculation; `result` is None before anything was given."""

    template: ClassVar[str] = "work.html.j2"
    frame: StaffFrame
    here: str
    title: str
    question: str
    inputs: tuple[InputShown, ...]
    alert: str
    result: Result | None
    formulas: tuple[manual.Page, ...]


def routes(site: Site) -> APIRouter:
    """The list, and a page for each."""
    router = APIRouter()
    door, room = Door(site), _Working(site)
    router.add_api_route(f"{ROOM}/sums", door.reading(Role.ENGINEER, room.all), methods=["GET"], response_model=None)
    one = door.reading(Role.ENGINEER, room.one)
    router.add_api_route(ROOM + "/sums/{calculation}", one, methods=["GET"], response_model=None)
    return router


class _Working:
    def __init__(self, site: Site) -> None:
        self.site = site

    def all(self, visit: Visit) -> Response:
        """Every calculation by its question."""
        links = (Link(each.title, f"{ROOM}/sums/{name}", each.question) for name, each in CALCULATIONS.items())
        return answer(WorkListPage(staff_frame(self.site, visit), tuple(links)))

    def one(self, visit: Visit) -> Response:
        """A calculation, with its result once something was given."""
        found = CALCULATIONS.get(visit.request.path_params["calculation"])
        if found is None:
            raise NotFound
        names = {each.name for each in found.inputs}
        query = visit.request.query_params
        typed = {name: text[:LONGEST] for name, text in query.items() if name in names}
        outcome = ask(found, _with_points(found, typed)) if typed else ()
        problems = () if isinstance(outcome, Result) else outcome
        page = WorkPage(
            frame=staff_frame(self.site, visit),
            here=f"{ROOM}/sums/{found.name}",
            title=found.title,
            question=found.question,
            inputs=tuple(_inputs(found, typed, problems)),
            alert=" ".join(_said(each) for each in problems if not each.input),
            result=outcome if isinstance(outcome, Result) else None,
            formulas=manual.pages(found),
        )
        return answer(page, 422 if problems else 200)


def _with_points(calculation: Calculation, typed: Mapping[str, str]) -> dict[str, str]:
    """What was typed, a decimal comma written as a point."""
    figures = {each.name for each in calculation.inputs if isinstance(each, Figure)}
    return {name: text.replace(",", ".") if name in figures else text for name, text in typed.items()}


def _inputs(calculation: Calculation, typed: Mapping[str, str], problems: tuple[Problem, ...]) -> Iterator[InputShown]:
    wrong = {each.input: _said(each) for each in problems}
    for each in calculation.inputs:
        text = typed.get(each.name, "")
        if isinstance(each, Choice):
            chosen = text if text in each.options else each.usual
            options = tuple(OptionShown(id, words, id == chosen) for id, words in each.options.items())
            yield InputShown(each.name, each.label, each.help, "", text, True, wrong.get(each.name, ""), options)
        else:
            usual = f"Without it {each.usual:g} is taken." if each.usual is not None else ""
            help = " ".join(part for part in (each.help, usual) if part)
            unit = each.span_for(typed).unit
            yield InputShown(each.name, each.label, help, unit, text, each.required, wrong.get(each.name, ""), ())


def _said(problem: Problem) -> str:
    # The remedy names the input as a command is given it; on a page the field itself stands above.
    remedy = "Fill it in" if problem.found == "nothing" else problem.remedy
    return f"Expected {problem.expected}, found {problem.found}. {remedy}."

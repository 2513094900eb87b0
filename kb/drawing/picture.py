"""What is there to be seen of an article's tree: which boxes, which ways between them, which ways out?"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import groupby

from kb.article import Answer, Article, Audience, End, Pace, Step
from kb.drawing import words
from kb.findings import Finding
from kb.library import Library
from kb.prose import Target

UNREACHABLE = "unreachable-step"
"""The rule whose finding says that nothing leads to a step."""


class Sort(StrEnum):
    """What a way out leads to, each drawn in a shape of its own."""

    END = "end"
    DANGER = "danger"
    WARNING = "warning"
    ARTICLE = "article"
    AGAIN = "again"
    NOWHERE = "nowhere"


@dataclass(frozen=True, slots=True)
class Exit:
    """A way out of the article, or back to the same step.

    It has the answers that take it, the title of where it leads, and what is said of that place.
    """

    answers: tuple[str, ...]
    sort: Sort
    title: str
    note: str
    used_up: bool = False


@dataclass(frozen=True, slots=True)
class Way:
    """A way from one step of the article to another, with the answers that take it."""

    source: str
    target: str
    answers: tuple[str, ...]
    used_up: bool = False


@dataclass(frozen=True, slots=True)
class Box:
    """A step: its title and text, what its braces say, what is wrong with it, and its ways out."""

    id: str
    title: str
    text: tuple[str, ...]
    notes: tuple[str, ...]
    marks: tuple[str, ...]
    exits: tuple[Exit, ...]
    begins: bool
    unreachable: bool


@dataclass(frozen=True, slots=True)
class Picture:
    """Everything that is drawn of one article for one audience, before any of it has a place.

    `marks` tells of the findings that belong to no step.
    """

    title: str
    boxes: tuple[Box, ...]
    ways: tuple[Way, ...]
    marks: tuple[str, ...]


def picture_of(article: Article, library: Library, audience: Audience, findings: Iterable[Finding] = ()) -> Picture:
    """The picture of an article's part for one audience; an article without such a part has no boxes."""
    own = sorted(finding for finding in findings if finding.place.file == article.file)
    steps = [step for step in article.steps if step.audience is audience]
    at = {step.target: [finding for finding in own if _owner(article, finding) is step] for step in steps}
    loose = [finding for finding in own if _owner(article, finding) is None]
    return Picture(
        title=words.heading(article.title, audience),
        boxes=tuple(_box(step, library, at[step.target], step is article.first(audience)) for step in steps),
        ways=tuple(way for step in steps for way in _ways(step, library)),
        marks=words.marked(loose),
    )


def _owner(article: Article, finding: Finding) -> Step | None:
    """The step a finding stands in; what comes after the last step of a part belongs to none."""
    asides = [block.place.line - 1 for block in article.card] + [cause.place.line - 1 for cause in article.causes]
    begins: list[tuple[int, Step | None]] = [(step.place.line, step) for step in article.steps]
    begins += [(line, None) for line in asides]
    before = [(line, step) for line, step in begins if line <= finding.place.line]
    return max(before, key=lambda each: each[0])[1] if before else None


def _box(step: Step, library: Library, findings: Sequence[Finding], begins: bool) -> Box:
    return Box(
        id=step.anchor,
        title=step.title,
        text=tuple(words.text(step)),
        notes=tuple(words.notes(step, _callers(step, library))),
        marks=words.marked(findings),
        exits=tuple(_exits(step, library)),
        begins=begins,
        unreachable=any(finding.rule == UNREACHABLE for finding in findings),
    )


def _callers(step: Step, library: Library) -> tuple[str, ...]:
    """The other articles that lead straight to a step."""
    return tuple(
        article.id
        for article in library.articles.values()
        if article.id != step.article and any(step.target in _targets(each) for each in article.steps)
    )


def _targets(step: Step) -> Iterator[Target]:
    yield from (answer.target for answer in step.answers)
    if step.limit and step.limit.then:
        yield step.limit.then


def _moves(step: Step) -> Iterator[tuple[Target, tuple[str, ...], bool]]:
    """Where a step leads, with the answers that lead there together, and last where it leads when it is used up."""

    def target(answer: Answer) -> Target:
        return answer.target

    first = {each: number for number, each in reversed(list(enumerate(map(target, step.answers))))}
    for where, answers in groupby(sorted(step.answers, key=lambda answer: first[answer.target]), target):
        yield where, tuple(map(words.answer, answers)), False
    if step.limit and step.limit.then:
        yield step.limit.then, (words.USED_UP,), True


def _inside(target: Target, step: Step, library: Library) -> Step | None:
    place = library.find(target, step.audience)
    own = isinstance(place, Step) and place.article == step.article and place.audience is step.audience
    return place if own and isinstance(place, Step) else None


def _ways(step: Step, library: Library) -> Iterator[Way]:
    for target, answers, used_up in _moves(step):
        inside = _inside(target, step, library)
        if inside is not None and inside is not step:
            yield Way(step.anchor, inside.anchor, answers, used_up)


def _exits(step: Step, library: Library) -> Iterator[Exit]:
    for target, answers, used_up in _moves(step):
        inside = _inside(target, step, library)
        if inside is step:
            yield Exit(answers, Sort.AGAIN, words.AGAIN, "", used_up)
        if inside is not None:
            continue
        place = library.find(target, step.audience)
        if isinstance(place, End):
            yield Exit(answers, _sort(place), place.title, words.end(place), used_up)
        elif place is not None:
            title = library.articles[place.article].title
            yield Exit(answers, Sort.ARTICLE, title, words.elsewhere(target, place), used_up)
        else:
            yield Exit(answers, Sort.NOWHERE, words.NOWHERE, str(target), used_up)


def _sort(end: End) -> Sort:
    return {Pace.LEAVE: Sort.DANGER, Pace.MAKE_SAFE: Sort.WARNING}.get(end.pace, Sort.END)

"""Where can somebody come to from a step, and what leads there?"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from kb.article import Article, Audience, End, Step
from kb.facts import TRIED
from kb.findings import Place
from kb.header import Kind
from kb.library import TRIED_ARTICLE, Library
from kb.prose import Block, Target


@dataclass(frozen=True, slots=True)
class Link:
    """One link: who follows it, where it stands, and where it leads."""

    audience: Audience
    target: Target
    place: Place


def links(library: Library) -> Iterator[Link]:
    """Every link of the library but the evidence in the tables of causes."""
    for article in library.articles.values():
        yield from _prose_links((*article.intro, *article.card), Audience.HOUSEHOLD)
        yield from _prose_links(article.notes, Audience.ENGINEER)
        for part in article.parts:
            yield from links_of(part) if isinstance(part, Step) else _prose_links(part.body, part.audience)


def shares(library: Library) -> Iterator[Link]:
    """Every link by which an end shares a passage with others."""
    for end in library.ends():
        for target in end.shares:
            yield Link(end.audience, target, end.place)


def links_of(step: Step) -> Iterator[Link]:
    """Every link of a step: its answers, where it goes when its limit is used up, and those in its words."""
    for answer in step.answers:
        yield Link(step.audience, answer.target, answer.place)
    if step.limit and step.limit.then:
        yield Link(step.audience, step.limit.then, step.place)
    yield from _prose_links(step.body, step.audience)


def _prose_links(blocks: Iterable[Block], audience: Audience) -> Iterator[Link]:
    for block in blocks:
        for line in block.lines:
            for span in line:
                if span.target is not None:
                    yield Link(audience, span.target, block.place)


def starts(library: Library, audience: Audience) -> Iterator[Step]:
    """The steps that a walk can begin with, or that are inserted into one."""
    for article in library.articles.values():
        first = article.first(audience)
        if first is not None and article.header.kind is not Kind.SHARED:
            yield first
    if audience is Audience.HOUSEHOLD:
        yield from tried_questions(library)


def tried_questions(library: Library) -> tuple[Step, ...]:
    """The steps that ask how often something was tried before."""
    tried = library.articles.get(TRIED_ARTICLE)
    return tuple(step for step in tried.steps if step.fact in TRIED.values()) if tried else ()


def reached(library: Library, audience: Audience) -> frozenset[Target]:
    """Every step that some walk, or a link in its words, leads this audience to."""
    ahead = list(starts(library, audience))
    seen = {step.target for step in ahead}
    while ahead:
        for link in links_of(ahead.pop()):
            place = library.find(link.target, audience)
            if isinstance(place, Step) and place.target not in seen:
                seen.add(place.target)
                ahead.append(place)
    return frozenset(seen)


def endless(library: Library, audience: Audience) -> Mapping[Target, frozenset[Target]]:
    """The moves that can be made any number of times: all but the answers of limited steps."""
    steps = [step for step in library.steps() if audience is Audience.ENGINEER or step.audience is audience]
    return {step.target: frozenset(_endless_from(library, step, audience)) for step in steps}


def _endless_from(library: Library, step: Step, audience: Audience) -> Iterator[Target]:
    targets = [step.limit.then] if step.limit else [answer.target for answer in step.answers]
    for target in targets:
        place = library.find(target, audience) if target else None
        if isinstance(place, Step):
            yield place.target


def household_end(place: Step | End | None) -> End | None:
    """The place if it is an end for households."""
    return place if isinstance(place, End) and place.audience is Audience.HOUSEHOLD else None


def file_line(article: Article) -> Place:
    """The top of an article's file."""
    return Place(article.file, 1)

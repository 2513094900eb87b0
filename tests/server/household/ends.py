"""Addresses of ends, found by walking there."""

from collections import deque
from collections.abc import Callable, Iterator

from kb.article import Audience, End, Pace, Step
from kb.facts import NOTHING_KNOWN, Known
from kb.library import Library
from kb.walk import walk


def end_where(library: Library, fits: Callable[[End], bool], known: Known = NOTHING_KNOWN) -> str:
    """The address of the first end that fits, by the shortest walk there."""
    for article in library.faults():
        start = article.first(Audience.HOUSEHOLD)
        for trail, end in _ends(library, start, known) if start else ():
            if fits(end):
                return f"/help/{article.id}/{trail}"
    raise AssertionError("no walk leads to such an end")


def end_of_pace(library: Library, pace: Pace, known: Known = NOTHING_KNOWN) -> str:
    """The address of an end of a pace, for a home of which this is known."""
    return end_where(library, lambda end: end.pace is pace, known)


def _ends(library: Library, start: Step, known: Known, longest: int = 6) -> Iterator[tuple[str, End]]:
    waiting = deque([""])
    while waiting:
        standing = walk(library, start, waiting.popleft(), known)
        if isinstance(standing.at, End):
            yield standing.trail, standing.at
        elif len(standing.trail.split("-")) < longest:
            waiting.extend(standing.trail_with(answer) for answer in standing.at.answers)
            if not standing.trail:
                waiting.append("none")

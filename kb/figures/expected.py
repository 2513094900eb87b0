"""How often was the expected cause the one that it was?"""

from collections import Counter
from collections.abc import Sequence
from typing import Final

from kb.figures.figure import Figure, Matrix, Point, Table, percent
from kb.figures.rows import CausesAlike

_SHOWN: Final = 8
ANY_OTHER: Final = "Any other cause"


def expected_causes(found: Sequence[CausesAlike]) -> Figure:
    """The first expected cause against the actual one, and how often it was one of the first two."""
    guessed = [each for each in found if each.first]
    actual: Counter[str] = Counter()
    for each in guessed:
        actual[each.actual] += each.jobs
    total = actual.total()
    first = sum(each.jobs for each in guessed if each.actual == each.first)
    two = sum(each.jobs for each in guessed if each.actual in (each.first, each.second))
    says = (
        f"In {percent(two, total)} of the jobs the cause was one of the first two expected, "
        f"in {percent(first, total)} it was the very first."
        if total
        else "No job with an expected cause was closed in this time."
    )
    causes = sorted(actual, key=lambda each: (-actual[each], each))
    shown = tuple(causes[:_SHOWN])
    return Figure(
        "causes",
        "Expected cause against actual",
        says,
        total,
        "jobs",
        _matrix(guessed, shown, any_other=len(causes) > len(shown)),
        _table(guessed),
        "A row is what it was, a column what was expected first. What was expected rightly lies on the diagonal.",
    )


def _matrix(guessed: Sequence[CausesAlike], shown: Sequence[str], any_other: bool) -> Matrix:
    place = {cause: number for number, cause in enumerate(shown)}
    size = len(shown) + 1
    cells = [[0] * size for _ in range(size)]
    within, wholes = [0] * size, [0] * size
    for each in guessed:
        row = place.get(each.actual, len(shown))
        cells[row][place.get(each.first, len(shown))] += each.jobs
        wholes[row] += each.jobs
        within[row] += each.jobs if each.actual in (each.first, each.second) else 0
    rows = size if any_other else len(shown)
    return Matrix(
        (*shown, ANY_OTHER)[:rows],
        tuple(tuple(row) for row in cells[:rows]),
        tuple(map(Point, within[:rows], wholes[:rows])),
        "in first two",
    )


def _table(guessed: Sequence[CausesAlike]) -> Table:
    order = sorted(guessed, key=lambda each: (-each.jobs, each.actual, each.first, each.second))
    rows = tuple((each.actual, each.first, each.second, each.jobs, _right(each)) for each in order)
    return Table(("It was", "Expected first", "Expected second", "Jobs", "Expected rightly"), rows)


def _right(each: CausesAlike) -> str:
    return "first" if each.actual == each.first else "second" if each.actual == each.second else "no"

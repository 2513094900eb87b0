"""Which shares does the firm watch over time: solved by phone, danger in the first minute, fixed first time?

Shares that could be bought with one another stand in one picture.
"""

from collections.abc import Callable, Iterable, Sequence
from typing import Final, TypeVar

from kb.figures.figure import ENOUGH, Figure, Panel, Point, Table, Trend, percent
from kb.figures.rows import CallsAlike, JobsAlike
from kb.figures.weeks import Block, Span, Week, day_words
from kb.figures.words import counted

Row = TypeVar("Row", CallsAlike, JobsAlike)

_YEAR: Final = 52
_HOLLOW: Final = f"A ring in place of a dot: fewer than {ENOUGH} cases, too few to mean anything by itself."


def solved_by_phone(calls: Sequence[CallsAlike], span: Span) -> Figure:
    """Solved by phone, and of those how many came back within 48 hours: a pair, so that one is not bought."""
    solved = _points(calls, span, lambda each: each.solved, lambda each: each.calls)
    back = _points(calls, span, lambda each: each.back, lambda each: each.settled)
    all_solved, all_back = _sum(solved), _sum(back)
    says = (
        f"{percent(all_solved.part, all_solved.whole).capitalize()} of the calls were solved by phone. "
        f"Of those, {percent(all_back.part, all_back.whole)} came back within 48 hours. "
        "If both rise, calls are closed too soon."
    )
    panels = (Panel("Solved by phone, of all calls", solved), Panel("of those, came back within 48 hours", back))
    columns = ("Solved by phone", "Of calls", "Share", "Came back", "Of solved", "Share that came back")
    return Figure(
        "by-phone",
        "Solved by phone, and came back within 48 hours",
        says,
        all_solved.whole,
        "calls",
        _trend(panels, span),
        _table(columns, span, solved, back),
        f"Calls solved less than 48 hours ago are not asked yet whether it lasted. {_HOLLOW}",
    )


def danger_soon(calls: Sequence[CallsAlike], span: Span) -> Figure:
    """The danger questions answered within the first minute."""
    points = _points(calls, span, lambda each: each.soon, lambda each: each.calls)
    total = _sum(points)
    late = total.whole - total.part
    says = (
        f"In {percent(total.part, total.whole)} of the calls every danger question was answered within the first "
        f"minute. In {counted(late, 'call')} it took longer, or was not done: each of them is one to look at."
        if total.whole
        else "Nobody called in this time."
    )
    return Figure(
        "danger",
        "Danger answered within the first minute",
        says,
        total.whole,
        "calls",
        _trend((Panel("Within the first minute, of all calls", points, 1.0),), span),
        _table(("Within the minute", "Of calls", "Share"), span, points),
        f"The aim is every call, and no figure here changes a question. {_HOLLOW}",
    )


def fixed_first_time(jobs: Sequence[JobsAlike], span: Span) -> Figure:
    """Fixed at the first visit, and no return for the same cause within 28 days; with how long visits took."""
    points = _points(jobs, span, lambda each: each.lasting, lambda each: each.settled)
    total = _sum(points)
    timed = sum(each.timed for each in jobs)
    minutes = f" A visit took {sum(each.minutes for each in jobs) / timed:.0f} minutes on average." if timed else ""
    says = (
        f"{percent(total.part, total.whole).capitalize()} of the jobs were fixed at the first visit, and nobody had "
        f"to return for the same cause within 28 days.{minutes}"
    )
    return Figure(
        "first-time",
        "Fixed first time",
        says,
        total.whole,
        "jobs",
        _trend((Panel("Fixed first time, of all jobs", points),), span),
        _table(("Fixed first time", "Of jobs", "Share"), span, points),
        f"Jobs closed less than 28 days ago are not counted yet. {_HOLLOW}",
    )


def _points(
    rows: Iterable[Row], span: Span, part: Callable[[Row], int], whole: Callable[[Row], int]
) -> tuple[Point, ...]:
    blocks = span.blocks()
    place = {week: number for number, block in enumerate(blocks) for week in _weeks(block)}
    parts, wholes = [0] * len(blocks), [0] * len(blocks)
    for each in rows:
        parts[place[each.week]] += part(each)
        wholes[place[each.week]] += whole(each)
    return tuple(map(Point, parts, wholes))


def _weeks(block: Block) -> Iterable[Week]:
    return (Week(block.first.number + n) for n in range(block.weeks))


def _trend(panels: tuple[Panel, ...], span: Span) -> Trend:
    blocks = span.blocks()
    long = len(span.weeks) > _YEAR
    words = [f"{each.first.monday:%b %Y}" if long else day_words(each.first.monday) for each in blocks]
    return Trend(panels, tuple(enumerate(words))[:: -(-len(blocks) // 4)])


def _sum(points: Iterable[Point]) -> Point:
    found = list(points)
    return Point(sum(each.part for each in found), sum(each.whole for each in found))


def _table(columns: Sequence[str], span: Span, *series: Sequence[Point]) -> Table:
    rows = zip(span.blocks(), *series, strict=True)
    return Table(
        ("Weeks", *columns),
        tuple(
            (block.words, *(cell for each in points for cell in (each.part, each.whole, each.share)))
            for block, *points in rows
        ),
    )

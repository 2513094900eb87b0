"""How many calls were there, week by week and about what, and in which weeks was it cold?"""

from collections import Counter
from collections.abc import Sequence
from typing import Final

from kb.figures.figure import Figure, Table, Weekly, WeekRow, percent
from kb.figures.rows import FROST, CallsAlike
from kb.figures.weeks import Span, Week, ticks
from kb.figures.words import category_words, counted

_SHOWN: Final = 8


def calls_by_week(calls: Sequence[CallsAlike], span: Span) -> Figure:
    """The calls of each week, altogether and by category, the commonest first."""
    weeks = span.weeks
    by: Counter[tuple[Week, str]] = Counter()
    for each in calls:
        by[each.week, each.category] += each.calls
    totals: Counter[str] = Counter()
    for (_, category), number in by.items():
        totals[category] += number
    order = sorted(totals, key=lambda each: (-totals[each], each))
    coldest = {week: _coldest(calls, week) for week in weeks}
    everything = WeekRow("All calls", tuple(sum(by[week, each] for each in order) for week in weeks))
    table = Table(
        ("Week", "Begins", "Coldest °C", "All calls", *map(category_words, order)),
        tuple(
            (str(week), week.monday.isoformat(), coldest[week], count, *(by[week, each] for each in order))
            for week, count in zip(weeks, everything.values, strict=True)
        ),
    )
    cold = tuple(degrees is not None and degrees <= FROST for degrees in coldest.values())
    chart = Weekly((everything, *_rows(by, order, weeks)), cold, "0 °C or colder outdoors", ticks(weeks))
    says = _says(totals, order, sum(cold), len(weeks))
    known = sum(degrees is not None for degrees in coldest.values())
    note = "" if known == len(weeks) else f"How cold it was is known for {counted(known, 'week')} of {len(weeks)}."
    return Figure("calls", "Calls by week, and what they were about", says, totals.total(), "calls", chart, table, note)


def _rows(by: Counter[tuple[Week, str]], order: Sequence[str], weeks: Sequence[Week]) -> tuple[WeekRow, ...]:
    rest = order[_SHOWN:] if len(order) > _SHOWN + 1 else ()
    rows = [
        WeekRow(category_words(each), tuple(by[week, each] for week in weeks))
        for each in order[: len(order) - len(rest)]
    ]
    if rest:
        more = tuple(sum(by[week, each] for each in rest) for week in weeks)
        rows.append(WeekRow(f"{len(rest)} other kinds", more))
    return tuple(rows)


def _coldest(calls: Sequence[CallsAlike], week: Week) -> float | None:
    return min((each.coldest for each in calls if each.week == week and each.coldest is not None), default=None)


def _says(totals: Counter[str], order: Sequence[str], cold: int, weeks: int) -> str:
    if not order:
        return "Nobody called in this time."
    first = order[0]
    most = f"{category_words(first)} came most often: {percent(totals[first], totals.total())} of them."
    frost = f"In {counted(cold, 'week')} it was 0 °C or colder." if cold else "No week is known to have had frost."
    return f"{counted(totals.total(), 'call')} in {counted(weeks, 'week')}. {most} {frost}"

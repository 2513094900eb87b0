"""Rows of calls and jobs for tests, and the same counts as the database's, made slowly, one row after another."""

from datetime import UTC, datetime, timedelta

from hypothesis import strategies as st

from kb.figures.rows import CallRow, CallsAlike, CausesAlike, JobRow, JobsAlike, PartsAlike, Stop, StopsAlike
from kb.figures.weeks import Span, Week

NOW = datetime(2026, 11, 25, 12, tzinfo=UTC)
TODAY = NOW.date()
THIS_WEEK = Week.of(TODAY)
HOMES = 3

_MOMENTS = st.integers(0, 60 * 24 * 60).map(lambda minutes: NOW - timedelta(minutes=minutes))
_STOPS = st.builds(Stop, st.sampled_from(["a.md#one", "a.md#two", "b.md#one"]), st.booleans())
_HOMES = st.none() | st.integers(1, HOMES)


@st.composite
def calls(draw: st.DrawFn) -> list[CallRow]:
    """Calls of two months, some about the same few homes, so that some of them come back."""
    return [
        CallRow(
            id=f"c{number}",
            began=began,
            closed=began + timedelta(minutes=draw(st.integers(1, 30))),
            week=Week.of(began.date()),
            category=draw(st.sampled_from(["condensate", "controls", "other"])),
            how=draw(st.sampled_from(["solved", "booked"])),
            home=draw(_HOMES),
            danger=draw(st.none() | st.sampled_from([8.0, 60.0, 60.5, 200.0])),
            back=draw(st.booleans()),
            outdoor=draw(st.none() | st.integers(-9, 20).map(float)),
            stops=tuple(draw(st.lists(_STOPS, max_size=2))),
        )
        for number, began in enumerate(draw(st.lists(_MOMENTS, max_size=12)))
    ]


@st.composite
def jobs(draw: st.DrawFn) -> list[JobRow]:
    """Jobs of two months, with few causes, so that some return."""
    causes, parts = st.sampled_from(["ice", "dirt", "a sag"]), st.frozensets(st.sampled_from(["pipe", "trap", "clip"]))
    return [
        JobRow(
            id=f"j{number}",
            closed=closed,
            week=Week.of(closed.date()),
            category="condensate",
            cause=draw(causes),
            home=draw(_HOMES),
            expected=tuple(draw(st.lists(causes, max_size=2, unique=True))),
            fixed=draw(st.booleans()),
            minutes=draw(st.none() | st.integers(5, 200)),
            taken=draw(parts),
            used=draw(parts),
        )
        for number, closed in enumerate(draw(st.lists(_MOMENTS, max_size=12)))
    ]


def count_calls(rows: list[CallRow], span: Span, now: datetime) -> set[CallsAlike]:
    groups: dict[tuple[Week, str], list[CallRow]] = {}
    for row in rows:
        if span.first <= row.week <= span.last:
            groups.setdefault((row.week, row.category), []).append(row)
    found = set()
    for (week, category), group in groups.items():
        solved = [row for row in group if row.how == "solved"]
        settled = [row for row in solved if now - row.closed >= timedelta(hours=48)]
        back = [row for row in settled if row.back or any(_came_back(row, other) for other in rows)]
        soon = [row for row in group if row.danger is not None and row.danger <= 60]
        cold = min((row.outdoor for row in group if row.outdoor is not None), default=None)
        found.add(CallsAlike(week, category, len(group), len(solved), len(settled), len(back), len(soon), cold))
    return found


def _came_back(row: CallRow, other: CallRow) -> bool:
    after = other.began - row.closed
    same = row.home is not None and row.home == other.home and row.id != other.id
    return same and timedelta() < after <= timedelta(hours=48)


def count_jobs(rows: list[JobRow], span: Span, now: datetime) -> set[JobsAlike]:
    found = set()
    for week in span.weeks:
        group = [row for row in rows if row.week == week]
        first = [row for row in group if not any(_returned(other, row) for other in rows)]
        settled = [row for row in first if now - row.closed >= timedelta(days=28)]
        lasting = [row for row in settled if row.fixed and not any(_returned(row, other) for other in rows)]
        timed = [row.minutes for row in group if row.minutes is not None]
        if group:
            found.add(JobsAlike(week, len(group), len(settled), len(lasting), len(timed), sum(timed)))
    return found


def _returned(row: JobRow, other: JobRow) -> bool:
    same = row.home is not None and row.home == other.home and row.cause == other.cause and row.id != other.id
    return same and timedelta() < other.closed - row.closed <= timedelta(days=28)


def count_stops(rows: list[CallRow], span: Span) -> set[StopsAlike]:
    stops = [stop for row in rows if span.first <= row.week <= span.last for stop in row.stops]
    return {
        StopsAlike(step, stops.count(Stop(step, True)), stops.count(Stop(step, False)))
        for step in {stop.step for stop in stops}
    }


def count_parts(rows: list[JobRow], span: Span) -> set[PartsAlike]:
    seen = [row for row in rows if span.first <= row.week <= span.last]
    return {
        PartsAlike(
            part,
            sum(part in row.taken for row in seen),
            sum(part in row.taken and part in row.used for row in seen),
            sum(part in row.used and part not in row.taken for row in seen),
        )
        for part in {part for row in seen for part in row.taken | row.used}
    }


def count_causes(rows: list[JobRow], span: Span) -> set[CausesAlike]:
    seen = [(*(*row.expected, "", "")[:2], row.cause) for row in rows if span.first <= row.week <= span.last]
    return {CausesAlike(*each, seen.count(each)) for each in seen}

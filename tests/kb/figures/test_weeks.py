from datetime import date, timedelta

import pandas
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kb.figures.weeks import Period, Span, Week, span_of, ticks

DAYS = st.dates(date(1990, 1, 1), date(2100, 1, 1))
TODAY = date(2026, 11, 25)


@pytest.mark.parametrize(
    ("day", "week"),
    [
        (date(2005, 1, 1), "2004-W53"),
        (date(2005, 1, 2), "2004-W53"),
        (date(2008, 12, 29), "2009-W01"),
        (date(2010, 1, 3), "2009-W53"),
        (date(2026, 11, 25), "2026-W48"),
    ],
)
def test_weeks_at_the_turn_of_a_year_are_those_of_iso_8601(day: date, week: str) -> None:
    """Days that are commonly given as examples of ISO 8601's rule; from memory."""
    assert str(Week.of(day)) == week


@given(days=st.lists(DAYS, min_size=1, max_size=60))
def test_days_fall_into_weeks_as_pandas_groups_them(days: list[date]) -> None:
    calendar = pandas.Series(pandas.to_datetime(days)).dt.isocalendar()
    theirs = calendar.groupby(["year", "week"]).size()

    ours = pandas.Series([str(Week.of(day)) for day in days]).value_counts()

    assert {f"{year}-W{week:02}": count for (year, week), count in theirs.items()} == ours.to_dict()


@given(day=DAYS)
def test_a_week_begins_on_the_monday_before_or_on_its_days(day: date) -> None:
    monday = Week.of(day).monday

    assert monday.weekday() == 0
    assert timedelta() <= day - monday < timedelta(days=7)


@given(first=st.integers(100_000, 110_000), weeks=st.integers(1, 400))
def test_blocks_hold_every_week_once_and_end_with_the_last(first: int, weeks: int) -> None:
    span = Span(Week(first), Week(first + weeks - 1))
    blocks = span.blocks()

    assert [block.first.number + n for block in blocks for n in range(block.weeks)] == [w.number for w in span.weeks]
    assert len({block.weeks for block in blocks[1:]}) <= 1


@pytest.mark.parametrize(("period", "weeks"), [(Period.TWELVE_WEEKS, 12), (Period.YEAR, 52), (Period.ALL, 201)])
def test_a_period_ends_with_this_week(period: Period, weeks: int) -> None:
    span = span_of(period, TODAY, Week(Week.of(TODAY).number - 200))

    assert len(span.weeks) == weeks
    assert span.last == Week.of(TODAY)


@pytest.mark.parametrize("period", Period)
def test_a_young_firm_is_shown_no_weeks_before_its_first(period: Period) -> None:
    first = Week(Week.of(TODAY).number - 3)

    assert span_of(period, TODAY, first).first == first


@pytest.mark.parametrize("period", Period)
def test_where_nothing_was_counted_there_still_is_a_week(period: Period) -> None:
    assert span_of(period, TODAY, None).last == Week.of(TODAY)


def test_dates_stand_at_the_first_weeks_of_months() -> None:
    weeks = span_of(Period.TWELVE_WEEKS, TODAY, Week(0)).weeks

    assert ticks(weeks) == ((0, "7 Sep"), (4, "5 Oct"), (8, "2 Nov"))


def test_over_a_year_the_year_stands_where_it_changes() -> None:
    weeks = span_of(Period.YEAR, TODAY, Week(0)).weeks

    assert [words for _, words in ticks(weeks)] == ["Dec 2025", "Mar 2026", "Jun", "Sep"]

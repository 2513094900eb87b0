"""A day or a moment of it is said the same way everywhere."""

from datetime import UTC, date, datetime, time
from zoneinfo import ZoneInfo

from kb.days import clock, full_day, full_moment, short_day, weekday

SUNDAY = date(2026, 10, 4)


def test_a_day_is_said_without_a_nought_in_front():
    assert full_day(SUNDAY) == "4 October 2026"
    assert weekday(SUNDAY) == "Sunday 4 October"
    assert short_day(SUNDAY) == "4 October"


def test_no_day_is_said_with_no_word():
    assert full_day(None) == ""


def test_a_moment_is_that_of_the_wall_clock_where_somebody_is():
    assert full_moment(datetime(2026, 10, 4, 23, 5, tzinfo=UTC), ZoneInfo("Europe/London")) == "5 October 2026, 00:05"


def test_an_hour_is_said_without_a_nought_in_front():
    assert clock(time(8, 5)) == "8:05"

import pytest

from kb.card.hours import said
from kb.hours import WEEKDAYS, Opening


def week(**days):
    return {day: tuple(map(Opening.read, openings.split())) for day, openings in days.items()}


def test_days_that_follow_one_another_are_taken_together():
    hours = week(mon="08:00-17:30", tue="08:00-17:30", wed="08:00-17:30", sat="09:00-12:00")
    assert said(hours) == ("Monday to Wednesday 08:00–17:30", "Saturday 09:00–12:00")


def test_a_day_between_with_other_hours_parts_them():
    hours = week(mon="08:00-17:00", tue="08:00-12:00", wed="08:00-17:00")
    assert said(hours) == ("Monday 08:00–17:00", "Tuesday 08:00–12:00", "Wednesday 08:00–17:00")


def test_a_day_with_a_break_names_both_parts():
    assert said(week(fri="08:00-12:00 13:00-16:00")) == ("Friday 08:00–12:00, 13:00–16:00",)


@pytest.mark.parametrize(
    ("openings", "line"),
    [("00:00-24:00", "Day and night, every day"), ("07:00-20:00", "Every day 07:00–20:00")],
)
def test_a_whole_week_is_said_at_once(openings, line):
    assert said(week(**dict.fromkeys(WEEKDAYS, openings))) == (line,)


def test_a_firm_that_never_opens_says_nothing():
    assert said({}) == ()

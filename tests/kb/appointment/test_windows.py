from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import pytest

from kb.appointment import Unfit, Window, moment, read_window, typed_window, words

LONDON = ZoneInfo("Europe/London")
TODAY = date(2026, 11, 25)
"""A Wednesday."""


def test_a_window_is_read_back_as_it_was_sent() -> None:
    window = Window(date(2026, 11, 26), 480, 720)
    assert read_window(window.sent) == window
    assert words(window) == "Thursday 26 November, 8:00 to 12:00"


@pytest.mark.parametrize("sent", ["", "2026-11-26", "2026-11-26 720 480", "soon 1 2", "2026-11-26 0 1441", "x" * 99])
def test_anything_else_is_told(sent: str) -> None:
    assert isinstance(read_window(sent), Unfit)


def test_times_are_typed_as_people_type_them() -> None:
    for typed in (("8:00", "12:00"), ("08:00", "12"), ("8", "12.00")):
        assert typed_window("2026-11-26", *typed, TODAY) == Window(date(2026, 11, 26), 480, 720)
    assert typed_window("2026-11-26", "20:00", "24:00", TODAY) == Window(date(2026, 11, 26), 1200, 1440)
    for wrong in (("8:61", "12:00"), ("eight", "12"), ("8", "25"), ("12", "8")):
        assert isinstance(typed_window("2026-11-26", *wrong, TODAY), Unfit)
    assert isinstance(typed_window("26th", "8", "12", TODAY), Unfit)


def test_a_window_begins_and_ends_on_the_wall_of_the_firm() -> None:
    summer = Window(date(2026, 7, 1), 480, 720)
    assert summer.begins(LONDON) == datetime(2026, 7, 1, 7, tzinfo=UTC)
    assert Window(date(2026, 7, 1), 480, 1440).ends(LONDON) == datetime(2026, 7, 1, 23, tzinfo=UTC)


def test_the_end_of_a_day_is_said_as_that_day() -> None:
    assert moment(datetime(2026, 12, 1, 0, tzinfo=UTC), LONDON) == "the end of Monday 30 November"
    assert moment(datetime(2026, 12, 1, 9, 5, tzinfo=UTC), LONDON) == "Tuesday 1 December, 9:05"


@pytest.mark.parametrize(
    ("typed", "day"),
    [
        ("today", date(2026, 11, 25)),
        ("Tomorrow", date(2026, 11, 26)),
        ("mon", date(2026, 11, 30)),
        ("Monday", date(2026, 11, 30)),
        ("wed", date(2026, 12, 2)),
        ("30/11", date(2026, 11, 30)),
        ("30 11", date(2026, 11, 30)),
        ("1.1", date(2027, 1, 1)),
        ("1/2/2027", date(2027, 2, 1)),
        ("2026-11-30", date(2026, 11, 30)),
    ],
)
def test_a_day_is_typed_as_it_is_said(typed: str, day: date) -> None:
    assert typed_window(typed, "8", "12", TODAY) == Window(day, 480, 720)


@pytest.mark.parametrize("typed", ["", "monkey", "31/11", "0/1", "soon", "30/11/26", "99"])
def test_a_day_that_there_is_not_is_told(typed: str) -> None:
    found = typed_window(typed, "8", "12", TODAY)
    assert isinstance(found, Unfit)
    assert found.remedy == "Write it like mon, 26/11 or 2026-11-26."

from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kb.appointment import Window, due, half_day, offers
from kb.article import Pace
from kb.hours import Opening

LONDON = ZoneInfo("Europe/London")
DAY = (Opening(8 * 60, 17 * 60 + 30),)
HOURS = {**dict.fromkeys(("mon", "tue", "wed", "thu", "fri"), DAY), "sat": (Opening(9 * 60, 12 * 60),)}
NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)
"""A Wednesday."""


def offered(pace: Pace, at: datetime = NOON) -> list[tuple[str, int, int, bool]]:
    found = offers(HOURS, LONDON, pace, at, at)
    return [(f"{each.day:%a}", each.opens // 60, each.closes // 60, each.outside) for each in found]


def test_today_is_this_afternoon_or_tomorrow_until_the_same_hour() -> None:
    assert offered(Pace.TODAY) == [("Wed", 12, 17, False), ("Thu", 8, 12, False)]


def test_make_safe_is_over_in_four_hours() -> None:
    assert offered(Pace.MAKE_SAFE) == [("Wed", 12, 16, False)]


def test_in_the_evening_what_presses_is_offered_outside_the_hours() -> None:
    evening = NOON.replace(hour=22)
    assert offered(Pace.MAKE_SAFE, evening) == [("Wed", 22, 24, True), ("Thu", 0, 2, True)]


def test_three_working_days_are_half_days_and_the_saturday_counts_as_open_only() -> None:
    friday = datetime(2026, 11, 27, 13, tzinfo=UTC)
    days = [f"{each[0]}" for each in offered(Pace.THREE_DAYS, friday)]
    assert days == ["Fri", "Sat", "Mon", "Mon", "Tue", "Tue", "Wed", "Wed"]


def test_what_does_not_press_begins_tomorrow() -> None:
    assert offered(Pace.ROUTINE)[0] == ("Thu", 8, 12, False)
    assert len(offered(Pace.ADVICE)) == 8


def test_a_promise_that_is_past_offers_what_comes_next() -> None:
    found = offers(HOURS, LONDON, Pace.MAKE_SAFE, datetime(2026, 11, 20, 12, tzinfo=UTC), NOON)
    assert (found[0].day, found[0].opens) == (date(2026, 11, 25), 720)


def test_a_firm_that_is_never_open_still_comes_in_time() -> None:
    assert all(each.outside for each in offers({}, LONDON, Pace.TODAY, NOON, NOON))
    assert offers({}, LONDON, Pace.ROUTINE, NOON, NOON) == ()


@given(
    st.sampled_from([Pace.MAKE_SAFE, Pace.TODAY, Pace.THREE_DAYS]),
    st.datetimes(datetime(2026, 1, 1), datetime(2027, 1, 1), timezones=st.just(UTC)),
)
def test_nothing_is_ever_offered_later_than_the_pace_allows(pace: Pace, at: datetime) -> None:
    found = offers(HOURS, LONDON, pace, at, at)
    assert found
    assert all(each.ends(LONDON) <= due(pace, at, LONDON) for each in found)
    assert all(each.ends(LONDON) > at and each.opens < each.closes for each in found)


@pytest.mark.parametrize(
    ("day", "afternoon", "window"),
    [
        (date(2026, 11, 26), False, (480, 720)),
        (date(2026, 11, 26), True, (720, 1050)),
        (date(2026, 11, 28), False, (540, 720)),
        (date(2026, 11, 28), True, (720, 1020)),
        (date(2026, 11, 29), False, (480, 720)),
    ],
)
def test_half_a_day(day: date, afternoon: bool, window: tuple[int, int]) -> None:
    assert half_day(HOURS, day, afternoon) == Window(day, *window)

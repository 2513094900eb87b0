from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kb.hours import WEEKDAYS, Hours, Opening, is_open, opens_next

LONDON = ZoneInfo("Europe/London")
OFFICE: Hours = {day: (Opening.read("08:00-12:00"), Opening.read("13:00-17:30")) for day in WEEKDAYS[:5]}
NIGHT: Hours = {"sun": (Opening.read("00:30-03:00"),)}


def utc(text: str) -> datetime:
    return datetime.fromisoformat(text).replace(tzinfo=UTC)


@pytest.mark.parametrize("written", ["08:00-17:30", "00:00-24:00", "23:59-24:00"])
def test_an_opening_is_written_as_it_is_read(written):
    assert str(Opening.read(written)) == written


@pytest.mark.parametrize(
    "written", ["", "8:00-17:30", "17:30-08:00", "08:00-08:00", "08:00-24:01", "08:60-09:00", "08:00", "٠٨:00-17:30"]
)
def test_what_is_no_stretch_of_a_day_is_refused(written):
    with pytest.raises(ValueError, match="expected a stretch of one day like 08:00-17:30"):
        Opening.read(written)


@pytest.mark.parametrize(
    ("at", "expected"),
    [
        ("2026-11-25T07:59:59", False),
        ("2026-11-25T08:00:00", True),
        ("2026-11-25T11:59:59", True),
        ("2026-11-25T12:00:00", False),
        ("2026-11-25T17:29:59", True),
        ("2026-11-25T17:30:00", False),
        ("2026-11-28T10:00:00", False),
    ],
)
def test_the_firm_is_open_from_the_first_minute_until_before_the_last(at, expected):
    assert is_open(OFFICE, LONDON, utc(at)) is expected


def test_in_summer_the_clock_on_the_wall_counts():
    assert is_open(OFFICE, LONDON, utc("2026-07-01T07:30"))
    assert not is_open(OFFICE, LONDON, utc("2026-07-01T16:45"))


# Outside reference for what follows: the IANA time zone database, through zoneinfo. In 2026 London's clocks go
# forward on 29 March at 01:00 UTC and back on 25 October at 01:00 UTC.


@pytest.mark.parametrize("sunday", ["2026-03-29", "2026-10-25"])
def test_across_both_changes_it_is_open_exactly_while_the_wall_clock_says_so(sunday):
    start = utc(f"{sunday}T00:00") - timedelta(hours=3)
    for minutes in range(0, 10 * 60, 5):
        at = start + timedelta(minutes=minutes)
        wall = at.astimezone(LONDON)
        expected = f"{wall:%a}" == "Sun" and "00:30" <= f"{wall:%H:%M}" < "03:00"
        assert is_open(NIGHT, LONDON, at) is expected, wall


@pytest.mark.parametrize(("sunday", "hours"), [("2026-03-29", 1.5), ("2026-10-25", 3.5)])
def test_a_night_of_the_change_is_an_hour_shorter_or_longer(sunday, hours):
    minutes = [utc(f"{sunday}T00:00") + timedelta(minutes=m - 180) for m in range(600)]
    assert sum(is_open(NIGHT, LONDON, at) for at in minutes) == hours * 60


@pytest.mark.parametrize(
    ("at", "expected"),
    [
        ("2026-11-25T07:00", "2026-11-25T08:00"),
        ("2026-11-25T08:00", "2026-11-25T13:00"),
        ("2026-11-25T12:30", "2026-11-25T13:00"),
        ("2026-11-27T18:00", "2026-11-30T08:00"),
        ("2026-03-28T12:00", "2026-03-30T07:00"),
        ("2026-10-23T17:00", "2026-10-26T08:00"),
    ],
)
def test_it_opens_next_at_the_first_beginning_after_now(at, expected):
    assert opens_next(OFFICE, LONDON, utc(at)) == utc(expected)


def test_the_next_opening_is_told_in_the_firms_own_zone():
    found = opens_next(OFFICE, LONDON, utc("2026-03-28T12:00"))
    assert found is not None
    assert found.isoformat() == "2026-03-30T08:00:00+01:00"


def test_an_opening_in_the_hour_that_is_skipped_begins_an_hour_later():
    skipped: Hours = {"sun": (Opening.read("01:30-04:00"),)}
    found = opens_next(skipped, LONDON, utc("2026-03-29T00:00"))
    assert found is not None
    assert found.isoformat() == "2026-03-29T02:30:00+01:00"


def test_in_the_hour_that_comes_twice_an_opening_that_has_begun_is_not_next():
    twice: Hours = {"sun": (Opening.read("01:30-04:00"),)}
    first = opens_next(twice, LONDON, utc("2026-10-25T00:15"))
    assert first is not None
    # A time that comes twice never equals one of another zone (PEP 495), so both are told in UTC.
    assert first.astimezone(UTC) == utc("2026-10-25T00:30")
    assert opens_next(twice, LONDON, utc("2026-10-25T01:15")) == utc("2026-11-01T01:30")


def test_one_opening_a_week_comes_again_in_a_week():
    once: Hours = {"wed": (Opening.read("08:00-09:00"),)}
    assert opens_next(once, LONDON, utc("2026-11-25T08:00")) == utc("2026-12-02T08:00")


def test_a_firm_without_hours_never_opens():
    assert opens_next({}, LONDON, utc("2026-11-25T08:00")) is None
    assert not is_open({}, LONDON, utc("2026-11-25T08:00"))


@pytest.mark.parametrize("ask", [is_open, opens_next])
def test_a_time_without_a_zone_is_our_own_failure(ask):
    with pytest.raises(ValueError, match="Expected a time that says its zone"):
        ask(OFFICE, LONDON, datetime(2026, 11, 25, 8))


DAYTIME = st.builds(lambda opens, length: Opening(opens, opens + length), st.integers(180, 1200), st.integers(1, 200))


@given(
    st.dictionaries(st.sampled_from(WEEKDAYS), st.tuples(DAYTIME), min_size=1),
    st.datetimes(datetime(2026, 1, 1), datetime(2026, 12, 31), timezones=st.just(UTC)),
    st.sampled_from(["Europe/London", "Europe/Dublin", "America/New_York", "Australia/Lord_Howe", "Asia/Kathmandu"]),
)
def test_it_is_closed_or_just_closing_until_it_opens_next(hours, at, name):
    zone = ZoneInfo(name)
    found = opens_next(hours, zone, at)
    assert found is not None
    assert at < found <= at + timedelta(days=7, hours=1)
    assert is_open(hours, zone, found)
    assert not is_open(hours, zone, found - timedelta(minutes=1))

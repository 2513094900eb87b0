from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from kb.appointment import Appointment, Unfit, Window, agree, due, heard, said, spoken, stands
from kb.article import Pace

LONDON = ZoneInfo("Europe/London")
NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)
"""A Wednesday."""

THURSDAY = Window(date(2026, 11, 26), 8 * 60, 12 * 60)


@pytest.mark.parametrize(
    ("pace", "by"),
    [
        # The words of the paces, `kb.desk.words.PACE_WORDS`: two to four hours, 24 hours, three working days.
        (Pace.LEAVE, datetime(2026, 11, 25, 16, tzinfo=UTC)),
        (Pace.MAKE_SAFE, datetime(2026, 11, 25, 16, tzinfo=UTC)),
        (Pace.TODAY, datetime(2026, 11, 26, 12, tzinfo=UTC)),
        (Pace.THREE_DAYS, datetime(2026, 12, 1, 0, tzinfo=UTC)),
        (Pace.ROUTINE, None),
        (Pace.ADVICE, None),
    ],
)
def test_a_pace_wants_somebody_there_by_then(pace: Pace, by: datetime | None) -> None:
    assert due(pace, NOON, LONDON) == by


def test_working_days_leave_the_weekend_out() -> None:
    friday = datetime(2026, 11, 27, 9, tzinfo=UTC)
    assert due(Pace.THREE_DAYS, friday, LONDON) == datetime(2026, 12, 3, 0, tzinfo=UTC)


def test_the_hours_of_a_pace_are_real_hours_also_when_the_clocks_change() -> None:
    before = datetime(2026, 10, 25, 0, 30, tzinfo=UTC)
    assert due(Pace.MAKE_SAFE, before, LONDON) - before == timedelta(hours=4)


def test_later_than_the_pace_needs_a_reason_that_is_kept() -> None:
    latest = due(Pace.MAKE_SAFE, NOON, LONDON)
    refused = agree(THURSDAY, "Robin", "  ", latest, NOON, LONDON)
    assert isinstance(refused, Unfit)
    assert "Wednesday 25 November, 16:00" in str(refused)
    taken = agree(THURSDAY, "Robin", " they are away ", latest, NOON, LONDON)
    assert taken == Appointment(THURSDAY, "Robin", "they are away", latest)


def test_a_time_that_is_over_or_years_away_is_none() -> None:
    yesterday = Window(date(2026, 11, 24), 480, 720)
    assert isinstance(agree(yesterday, "", "why", None, NOON, LONDON), Unfit)
    assert isinstance(agree(Window(date(2027, 11, 24), 480, 720), "", "why", None, NOON, LONDON), Unfit)
    assert isinstance(agree(Window(date(2026, 11, 25), 480, 721), "", "", None, NOON, LONDON), Appointment)


def test_a_reason_holds_only_while_nothing_asks_for_sooner() -> None:
    latest = due(Pace.TODAY, NOON, LONDON)
    late = Appointment(Window(date(2026, 11, 30), 480, 720), "", "they are away", latest)
    assert stands(late, latest, LONDON)
    assert not stands(late, due(Pace.MAKE_SAFE, NOON, LONDON), LONDON)
    assert stands(late, due(Pace.THREE_DAYS, NOON, LONDON), LONDON)
    assert stands(late, None, LONDON)


def test_a_visit_in_time_stands_until_the_pace_rises() -> None:
    latest = due(Pace.TODAY, NOON, LONDON)
    in_time = Appointment(THURSDAY, "", "", latest)
    assert stands(in_time, latest, LONDON)
    assert not stands(in_time, due(Pace.MAKE_SAFE, NOON, LONDON), LONDON)


def test_what_the_caller_hears() -> None:
    words = spoken(Appointment(THURSDAY, "Robin"), Pace.TODAY, date(2026, 11, 25))
    assert words == (
        "Robin comes tomorrow, on Thursday 26 November in the morning, between 8:00 and 12:00. "
        "Somebody grown up must be in."
    )
    whole = spoken(Appointment(Window(date(2026, 11, 30), 600, 900)), Pace.ROUTINE, date(2026, 11, 25))
    assert whole.startswith("One of our engineers comes on Monday 30 November, between 10:00 and 15:00.")


def test_what_is_late_in_the_day_is_called_the_evening() -> None:
    late = Appointment(Window(date(2026, 11, 25), 20 * 60, 23 * 60 + 45))
    words = spoken(late, Pace.LEAVE, date(2026, 11, 25))
    assert "left the home safe, one of our engineers comes today, on Wednesday 25 November in the evening," in words


def test_the_caller_hears_that_the_emergency_service_goes_first() -> None:
    words = spoken(Appointment(THURSDAY, "Robin"), Pace.LEAVE, date(2026, 11, 25))
    assert words.startswith("The emergency service goes first. Once it has left the home safe, Robin comes tomorrow")


def test_an_event_keeps_all_of_it() -> None:
    agreed = Appointment(THURSDAY, "Robin", "they are away", NOON, "Wren", NOON)
    assert heard(said(agreed), "Wren", NOON) == agreed
    assert heard({"window": "soon"}) is None
    assert heard({}) is None

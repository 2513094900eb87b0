"""When a household is told to expect our call."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest
from starlette.testclient import TestClient

from kb.article import Pace
from server.app import create_app
from server.site import Site
from tests.builders import firm
from tests.requests import Clock
from tests.server.conftest import WEDNESDAY_NOON
from tests.server.household.asking import received
from tests.server.household.ends import end_of_pace
from tests.server.html import Page

SATURDAY = datetime(2026, 11, 28, 20, tzinfo=UTC)


@pytest.mark.parametrize(
    ("asked", "looked", "said"),
    [
        ("25 12:00", "25 12:00", "We call you in our opening hours: today until 17:30."),
        ("25 17:00", "25 17:00", "We call you in our opening hours: today until 17:30, or tomorrow from 8:00."),
        ("25 17:00", "26 07:00", "We call you in our opening hours: today from 8:00."),
        ("25 17:00", "26 09:00", "We call you in our opening hours: today until 17:30."),
        ("25 20:00", "25 20:00", "We call you in our opening hours: tomorrow from 8:00."),
        ("28 20:00", "28 20:00", "We call you in our opening hours: on Monday from 8:00."),
        ("25 12:00", "26 12:00", "You should have heard from us by now. Please ring us."),
    ],
)
def test_the_words_go_by_the_opening_hours_and_by_when_they_are_read(
    client: TestClient, end: str, clock: Clock, asked: str, looked: str, said: str
) -> None:
    moments = [datetime.fromisoformat(f"2026-11-{moment}").replace(tzinfo=UTC) for moment in (asked, looked)]

    assert said in received(client, end, clock, *moments)


def test_what_can_wait_is_told_that_others_come_first(client: TestClient, site: Site, clock: Clock) -> None:
    words = received(client, end_of_pace(site.library, Pace.ROUTINE), clock, WEDNESDAY_NOON, WEDNESDAY_NOON)

    assert "today until 17:30, or tomorrow from 8:00. Urgent calls come first." in words
    assert "quicker" not in words


def with_firm(site: Site, clock: Clock, **changes: object) -> TestClient:
    return TestClient(create_app(replace(site, now=clock, firm=firm(**changes))), follow_redirects=False)


def test_a_firm_that_says_how_soon_it_calls_is_held_to_it(site: Site, end: str, clock: Clock) -> None:
    with with_firm(site, clock, answers_within={"today": 120}) as client:
        assert "We call you today, by 14:00." in received(client, end, clock, WEDNESDAY_NOON, WEDNESDAY_NOON)
        assert "We call you on Monday, by 10:00." in received(client, end, clock, SATURDAY, SATURDAY)


def test_a_firm_without_hours_says_that_it_cannot_say(site: Site, end: str, clock: Clock) -> None:
    with with_firm(site, clock, hours={}) as client:
        assert "We cannot say when." in received(client, end, clock, WEDNESDAY_NOON, WEDNESDAY_NOON)


def test_the_number_where_somebody_answers_now_is_shown(site: Site, end: str, clock: Clock) -> None:
    phones = [
        {"number": "01632 960123", "what": "office"},
        {"number": "07700 900147", "what": "out-of-hours"},
    ]
    with with_firm(site, clock, phones=phones) as client:
        by_day = received(client, end, clock, WEDNESDAY_NOON, WEDNESDAY_NOON)
        by_night = received(client, end, clock, SATURDAY, SATURDAY)
    with with_firm(site, clock) as client:
        by_night_without = received(client, end, clock, SATURDAY, SATURDAY)

    assert "Somebody answers now: 01632 960123" in by_day
    assert "Somebody answers now: 07700 900147" in by_night
    assert "Somebody answers now" not in by_night_without


def test_the_form_itself_shows_who_answers_now_or_when_somebody_will(site: Site, end: str, clock: Clock) -> None:
    clock.at = SATURDAY
    night = {"number": "07700 900147", "what": "out-of-hours"}
    with with_firm(site, clock, phones=[{"number": "01632 960123"}, night]) as client:
        with_night = Page(client.get(f"{end}/call-me").text).words
    with with_firm(site, clock) as client:
        without = Page(client.get(f"{end}/call-me").text).words

    assert "Ringing us is quicker: 07700 900147 Somebody answers now." in with_night
    assert "Ringing us is quicker: 01632 960123 Closed now. Opens on Monday at 8:00" in without

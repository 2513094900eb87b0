"""The secret addresses of calendars, on both databases."""

from datetime import UTC, datetime, timedelta

import pytest

from kb.staff import Account, Role

NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)


@pytest.fixture
def calendars(store):
    store.staff.add(Account("Wren", frozenset({Role.OFFICE})), "a hash", NOON)
    return store.calendars


def test_an_account_has_one_address_and_a_new_one_ends_the_old(calendars):
    assert calendars.made("Wren") is None
    calendars.renew("Wren", "first", NOON)
    calendars.renew("Wren", "second", NOON + timedelta(days=1))
    assert calendars.whose("first") is None
    assert calendars.whose("second") == Account("Wren", frozenset({Role.OFFICE}))
    assert calendars.made("Wren") == NOON + timedelta(days=1)


def test_a_stopped_address_opens_nothing(calendars):
    calendars.renew("Wren", "first", NOON)
    calendars.stop("Wren")
    assert calendars.whose("first") is None


def test_whoever_may_not_sign_in_has_no_calendar(store, calendars):
    calendars.renew("Wren", "first", NOON)
    store.staff.end("Wren", NOON)
    assert calendars.whose("first") is None

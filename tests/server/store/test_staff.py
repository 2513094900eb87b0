from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime, timedelta

import pytest

from kb.staff import Account, Role
from server.store import Store
from server.store.staff import IDLE, OLDEST, NameTaken

NOW = datetime(2026, 11, 25, 9, tzinfo=UTC)
WREN = Account("Wren Ashby", frozenset({Role.DESK, Role.OFFICE}))


@pytest.fixture
def staff(store: Store):
    store.staff.add(WREN, "hash", NOW)
    return store.staff


def test_an_account_is_found_by_its_name_however_it_is_typed(staff):
    found = staff.credentials("  wren ASHBY ")
    assert found.account == WREN
    assert found.password == "hash"


def test_nobody_is_found_by_another_name(staff):
    assert staff.credentials("Robin") is None


@pytest.mark.parametrize("name", ["Wren Ashby", "WREN ashby"])
def test_a_name_is_given_once(staff, name):
    with pytest.raises(NameTaken):
        staff.add(Account(name, frozenset()), "other", NOW)


def test_an_ended_account_keeps_its_name_and_signs_in_no_more(staff):
    staff.begin_session("one", WREN.name, NOW)
    assert staff.end(WREN.name, NOW)
    assert staff.credentials(WREN.name) is None
    assert staff.session("one", NOW) is None
    assert staff.accounts() == ()
    with pytest.raises(NameTaken):
        staff.add(WREN, "again", NOW)


def test_a_session_is_its_accounts_until_it_is_ended(staff):
    staff.begin_session("one", WREN.name, NOW)
    assert staff.session("one", NOW) == WREN
    staff.end_session("one")
    assert staff.session("one", NOW) is None


def test_a_session_that_is_used_stays(staff):
    staff.begin_session("one", WREN.name, NOW)
    for hours in range(0, 48, 8):
        assert staff.session("one", NOW + timedelta(hours=hours)) == WREN


def test_a_session_that_nobody_uses_ends(staff):
    staff.begin_session("one", WREN.name, NOW)
    assert staff.session("one", NOW + IDLE + timedelta(seconds=1)) is None


def test_no_session_lasts_for_ever(staff):
    staff.begin_session("one", WREN.name, NOW)
    moment = NOW
    while moment <= NOW + OLDEST:
        assert staff.session("one", moment) == WREN
        moment += IDLE
    assert staff.session("one", moment) is None


def test_all_sessions_of_one_account_end_together_and_no_others(staff):
    staff.add(Account("Robin", frozenset()), "hash", NOW)
    for id, name in (("one", WREN.name), ("two", WREN.name), ("three", "Robin")):
        staff.begin_session(id, name, NOW)
    assert staff.end_sessions(WREN.name) == 2
    assert staff.session("three", NOW) is not None


def test_a_session_begun_in_one_process_is_known_in_another(staff, address):
    staff.begin_session("one", WREN.name, NOW)
    with Store(address) as other:
        assert other.staff.session("one", NOW) == WREN


def test_a_code_is_taken_once(staff):
    staff.set_code_secret(WREN.name, "SECRET")
    assert [staff.take_code(WREN.name, step) for step in (7, 7, 6, 8)] == [True, False, False, True]


def test_a_code_is_taken_once_even_by_two_at_the_same_moment(staff):
    with ThreadPoolExecutor(4) as four:
        taken = list(four.map(lambda step: staff.take_code(WREN.name, step), [9] * 8))
    assert taken.count(True) == 1


def test_failures_are_counted_for_a_name_and_an_address_within_a_time(staff):
    tries = [(0, "Wren Ashby", "a"), (10, "wren ashby", "a"), (11, "Wren Ashby", "b"), (12, "Robin", "a")]
    for minutes, name, address in tries:
        staff.note_try(name, address, NOW + timedelta(minutes=minutes), well=False)
    staff.note_try(WREN.name, "a", NOW + timedelta(minutes=13), well=True)
    since = NOW + timedelta(minutes=5)
    assert staff.failures(since, "Wren Ashby", "a") == 1
    assert staff.failures(since, name="Wren Ashby") == 2
    assert staff.failures(since, address="a") == 2
    assert staff.known_at(WREN.name, "a")
    assert not staff.known_at(WREN.name, "b")


def test_an_accounts_roles_and_code_can_change(staff):
    assert staff.set_roles(WREN.name, [Role.ENGINEER])
    assert staff.set_code_secret(WREN.name, "SECRET")
    assert staff.accounts() == (Account(WREN.name, frozenset({Role.ENGINEER}), with_code=True),)
    assert not staff.set_roles("Robin", [])

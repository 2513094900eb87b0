from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import date

import pytest
from sqlalchemy import text

from server.store import DamagedHome, Revoked, Store, StoreUnavailable
from tests.server.store.building import FIRST, SECOND, THIRD, behind, home, tamper

DAY = date(2026, 11, 2)


def test_a_home_comes_back_as_it_was_put(store):
    put = replace(home(), fitted=date(2020, 2, 29), next_service=DAY)
    store.put(put)
    assert store.home(FIRST) == put


def test_a_home_is_there_when_the_store_is_opened_again(store, address):
    store.put(home())
    with Store(address) as again:
        assert again.home(FIRST) == home()


def test_an_unknown_key_opens_nothing(store):
    store.put(home())
    assert store.home(SECOND) is None


def test_putting_a_home_again_changes_it_alone(store):
    store.put(home(FIRST))
    store.put(home(SECOND))
    store.put(home(FIRST, "Another 30"))
    assert [each.appliance for each in store.homes()] == ["Another 30", "Any 20"]


@pytest.mark.parametrize("key", ["", "nonsense", FIRST.lower(), FIRST.replace("-", ""), FIRST[:-1] + "?"])
def test_a_key_must_be_as_it_is_printed_to_be_put(store, key):
    with pytest.raises(ValueError, match="Expected a key as it is printed"):
        store.put(home(key))


@pytest.mark.parametrize("appliance", ["x" * 201, "Any\0 20", "Any \ud800"])
def test_what_one_database_would_refuse_is_refused_for_all(store, appliance):
    with pytest.raises(ValueError, match="appliance"):
        store.put(home(appliance=appliance))
    assert store.homes() == ()


@pytest.mark.parametrize("key", ["' OR 1=1 --", "\0", "\u202e", "\ud800", "x" * 10_000, ""])
def test_any_text_may_be_looked_up(store, key):
    store.put(home())
    assert store.home(key) is None
    assert not store.revoke(key)


def test_a_revoked_key_says_since_when(store):
    store.put(home())
    assert store.revoke(FIRST, DAY)
    assert store.home(FIRST) == Revoked(FIRST, DAY)
    assert store.homes() == ()


def test_a_key_is_revoked_once_and_stays_so(store):
    store.put(home())
    store.revoke(FIRST, DAY)
    assert not store.revoke(FIRST, date(2026, 12, 24))
    store.put(home(FIRST, "Another 30"))
    assert store.home(FIRST) == Revoked(FIRST, DAY)


def test_revoking_one_key_leaves_the_others(store):
    store.put(home(FIRST))
    store.put(home(SECOND))
    store.revoke(FIRST)
    assert not store.revoke(THIRD)
    assert [each.key for each in store.homes()] == [SECOND]


def test_a_home_can_be_read_while_another_program_writes(store, address):
    store.put(home())
    with behind(address) as other:
        other.execute(text("UPDATE homes SET appliance = 'Half written'"))
        assert store.home(FIRST) == home()
    assert store.home(FIRST) == home(FIRST, "Half written")


def test_many_threads_each_get_the_home_they_asked_for(store):
    with ThreadPoolExecutor(8) as pool:
        store.put(home(FIRST, "First"))
        store.put(home(SECOND, "Second"))
        found = list(pool.map(store.home, [FIRST, SECOND] * 200))
    assert [getattr(each, "appliance", None) for each in found] == ["First", "Second"] * 200


def test_many_threads_may_put_the_same_home(store):
    with ThreadPoolExecutor(8) as pool:
        list(pool.map(store.put, [home(FIRST)] * 40))
    assert store.homes() == (home(FIRST),)


@pytest.mark.parametrize("change", ['facts = \'{"colour": "red"}\'', "marks = '{\"low\": 9}'", "marks = '[]'"])
def test_a_row_nobody_could_have_written_is_damaged(store, address, change):
    store.put(home())
    tamper(address, f"UPDATE homes SET {change}".replace(":", "\\:"))
    with pytest.raises(DamagedHome, match="restore the database from a backup"):
        store.home(FIRST)


@pytest.mark.parametrize("kind", ["sqlite"], indirect=True)
@pytest.mark.parametrize("change", ["facts = 'not json'", "fitted = 'soon'"])
def test_a_value_of_another_kind_which_sqlite_lets_in_is_damaged(store, address, change):
    store.put(home())
    tamper(address, f"UPDATE homes SET {change}")
    with pytest.raises(DamagedHome, match="restore the database from a backup"):
        store.home(FIRST)


def test_a_table_that_went_away_is_told_without_inner_words(store, address):
    tamper(address, "ALTER TABLE homes RENAME TO gone")
    for ask in (lambda: store.home(FIRST), store.homes, lambda: store.put(home()), lambda: store.revoke(FIRST)):
        with pytest.raises(StoreUnavailable, match=r"Expected the database .* to answer") as caught:
            ask()
        assert "SELECT" not in str(caught.value)

import sqlite3
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from dataclasses import replace
from datetime import date

import pytest

from server.store import DamagedHome, Revoked, StoreUnavailable
from tests.server.store.building import FIRST, SECOND, THIRD, home, opened, tamper

DAY = date(2026, 11, 2)


def test_a_home_comes_back_as_it_was_put(tmp_path):
    put = replace(home(), fitted=date(2020, 2, 29), next_service=DAY)
    with opened(tmp_path) as store:
        store.put(put)
        assert store.home(FIRST) == put


def test_a_home_is_there_when_the_store_is_opened_again(tmp_path):
    with opened(tmp_path) as store:
        store.put(home())
    with opened(tmp_path) as store:
        assert store.home(FIRST) == home()


def test_an_unknown_key_opens_nothing(tmp_path):
    with opened(tmp_path) as store:
        store.put(home())
        assert store.home(SECOND) is None


def test_putting_a_home_again_changes_it_alone(tmp_path):
    with opened(tmp_path) as store:
        store.put(home(FIRST))
        store.put(home(SECOND))
        store.put(home(FIRST, "Another 30"))
        assert [each.appliance for each in store.homes()] == ["Another 30", "Any 20"]


@pytest.mark.parametrize("key", ["", "nonsense", FIRST.lower(), FIRST.replace("-", ""), FIRST[:-1] + "?"])
def test_a_key_must_be_as_it_is_printed_to_be_put(tmp_path, key):
    with opened(tmp_path) as store, pytest.raises(ValueError, match="Expected a key as it is printed"):
        store.put(home(key))


@pytest.mark.parametrize("key", ["' OR 1=1 --", "\0", "\u202e", "x" * 10_000, ""])
def test_any_text_may_be_looked_up(tmp_path, key):
    with opened(tmp_path) as store:
        store.put(home())
        assert store.home(key) is None


def test_a_revoked_key_says_since_when(tmp_path):
    with opened(tmp_path) as store:
        store.put(home())
        assert store.revoke(FIRST, DAY)
        assert store.home(FIRST) == Revoked(FIRST, DAY)
        assert store.homes() == ()


def test_a_key_is_revoked_once_and_stays_so(tmp_path):
    with opened(tmp_path) as store:
        store.put(home())
        store.revoke(FIRST, DAY)
        assert not store.revoke(FIRST, date(2026, 12, 24))
        store.put(home(FIRST, "Another 30"))
        assert store.home(FIRST) == Revoked(FIRST, DAY)


def test_revoking_one_key_leaves_the_others(tmp_path):
    with opened(tmp_path) as store:
        store.put(home(FIRST))
        store.put(home(SECOND))
        store.revoke(FIRST)
        assert not store.revoke(THIRD)
        assert [each.key for each in store.homes()] == [SECOND]


def test_the_key_is_looked_up_by_its_index(tmp_path):
    with opened(tmp_path) as store:
        store.put(home())
    with closing(sqlite3.connect(tmp_path / "tundish.db")) as connection:
        plan = connection.execute("EXPLAIN QUERY PLAN SELECT * FROM homes WHERE key = 'x'").fetchall()
    assert "USING INDEX" in str(plan)


def test_a_home_can_be_read_while_another_program_writes(tmp_path):
    with opened(tmp_path) as store, closing(sqlite3.connect(tmp_path / "tundish.db")) as other:
        store.put(home())
        other.execute("UPDATE homes SET appliance = 'Half written'")
        assert other.in_transaction
        assert store.home(FIRST) == home()
        other.commit()
        found = store.home(FIRST)
        assert found == home(FIRST, "Half written")


def test_many_threads_each_get_the_home_they_asked_for(tmp_path):
    with opened(tmp_path) as store, ThreadPoolExecutor(8) as pool:
        store.put(home(FIRST, "First"))
        store.put(home(SECOND, "Second"))
        found = list(pool.map(store.home, [FIRST, SECOND] * 200))
    assert [getattr(each, "appliance", None) for each in found] == ["First", "Second"] * 200


@pytest.mark.parametrize(
    "change",
    [
        'facts = \'{"colour": "red"}\'',
        "facts = 'not json'",
        "marks = '{\"low\": 9}'",
        "marks = '[]'",
        "fitted = 'soon'",
    ],
)
def test_a_row_nobody_could_have_written_is_damaged(tmp_path, change):
    with opened(tmp_path) as store:
        store.put(home())
        tamper(tmp_path, f"UPDATE homes SET {change}")
        with pytest.raises(DamagedHome, match="restore the database from a backup"):
            store.home(FIRST)


def test_a_table_that_went_away_is_told_without_inner_words(tmp_path):
    with opened(tmp_path) as store:
        tamper(tmp_path, "DROP TABLE homes")
        for ask in (lambda: store.home(FIRST), store.homes, lambda: store.put(home()), lambda: store.revoke(FIRST)):
            with pytest.raises(StoreUnavailable, match=r"Expected the database .* to answer") as caught:
                ask()
            assert "SELECT" not in str(caught.value)

from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta
from pathlib import Path

import pytest
from sqlalchemy import text

from kb.article import Pace
from server.store import Store
from server.store.requests import KEPT, LONGEST, MOST_FOR_A_NUMBER, MOST_FROM_AN_ADDRESS, WINDOW, Put
from tests.requests import NOW, TRIED, asked
from tests.server.store.building import FIRST, behind, home

WREN, ROBIN = "Wren", "Robin"
MINUTE = timedelta(minutes=1)


def put(store: Store, number: int = 1, at=NOW, address: str = "", **changes) -> Put:
    return store.requests.put(asked(number, **changes), ["mail"], address or f"address {number}", at)


def test_a_request_is_kept_whole_with_what_is_to_be_told(store):
    assert put(store) is Put.NEW

    (kept,) = store.requests.waiting(WREN)
    assert kept.asked == asked()
    assert kept.at == NOW
    assert kept.asked.tried == TRIED
    assert [waiting.way for waiting in store.outbox.waiting()] == ["mail"]


def test_without_consent_nothing_of_what_was_tried_is_kept(store, address):
    put(store, tried=None)

    assert store.requests.waiting(WREN)[0].asked.tried is None
    with behind(address) as connection:
        assert connection.execute(text("SELECT count(*) FROM requests WHERE tried IS NULL")).scalar_one() == 1


def test_the_same_sent_twice_is_one_request_and_told_once(store):
    assert [put(store), put(store, at=NOW + MINUTE)] == [Put.NEW, Put.THERE]
    assert len(store.requests.waiting(WREN)) == len(store.outbox.waiting()) == 1


def test_the_same_sent_by_many_at_one_moment_is_one_request(store):
    with ThreadPoolExecutor(4) as four:
        put_in = list(four.map(lambda _: put(store), range(8)))

    assert put_in.count(Put.NEW) == 1
    assert len(store.requests.waiting(WREN)) == len(store.outbox.waiting()) == 1


def test_a_number_is_rung_at_somebodys_wish_only_so_often(store):
    for number in range(MOST_FOR_A_NUMBER):
        assert put(store, number, phone="+441632960001") is Put.NEW

    assert put(store, 50, phone="+441632960001") is Put.TOO_MANY
    assert put(store, 51, phone="+441632960002") is Put.NEW
    assert put(store, 0, phone="+441632960001") is Put.THERE
    assert put(store, 52, NOW + WINDOW, phone="+441632960001") is Put.NEW


def test_an_address_sends_only_so_many(store):
    for number in range(MOST_FROM_AN_ADDRESS):
        assert put(store, number, address="one") is Put.NEW

    assert put(store, 50, address="one") is Put.TOO_MANY
    assert put(store, 51, address="two") is Put.NEW
    assert len(store.requests.waiting(WREN)) == MOST_FROM_AN_ADDRESS + 1


def test_the_limit_holds_for_many_at_one_moment(store):
    with ThreadPoolExecutor(4) as four:
        put_in = list(four.map(lambda number: put(store, number, phone="+441632960001"), range(12)))

    assert put_in.count(Put.NEW) == MOST_FOR_A_NUMBER


def test_the_addresses_are_forgotten_after_the_window(store, address):
    put(store)
    put(store, 2, NOW + WINDOW + MINUTE)

    with behind(address) as connection:
        assert connection.execute(text("SELECT address FROM request_tries")).scalars().all() == ["address 2"]


def test_the_most_pressing_comes_first_then_the_oldest(store):
    put(store, 1, NOW, pace=Pace.ROUTINE)
    put(store, 2, NOW + 2 * MINUTE, pace=Pace.TODAY)
    put(store, 3, NOW + MINUTE, pace=Pace.TODAY)
    put(store, 4, NOW + 3 * MINUTE, pace=Pace.MAKE_SAFE)

    assert [request.asked.sent[-1] for request in store.requests.waiting(WREN)] == ["4", "3", "2", "1"]


def test_nobody_reads_without_a_name(store):
    for read in (store.requests.waiting, lambda by: store.requests.read(1, by)):
        with pytest.raises(ValueError, match="the name of the account that asks"):
            read(" ")


def test_a_request_is_taken_by_one(store):
    put(store)
    (request,) = store.requests.waiting(WREN)

    assert store.requests.take(request.id, WREN, NOW + MINUTE)
    assert store.requests.take(request.id, WREN, NOW + 2 * MINUTE)
    assert not store.requests.take(request.id, ROBIN, NOW)
    taken = store.requests.read(request.id, ROBIN)
    assert (taken.taken_by, taken.taken) == (WREN, NOW + MINUTE)


def test_of_two_who_take_it_at_the_same_moment_one_has_it(store):
    put(store)
    (request,) = store.requests.waiting(WREN)

    with ThreadPoolExecutor(4) as four:
        took = list(four.map(lambda n: store.requests.take(request.id, f"Handler {n}", NOW), range(8)))

    assert took.count(True) == 1


def test_what_is_done_waits_no_more_and_nobody_is_told_of_it(store):
    put(store)
    (request,) = store.requests.waiting(WREN)

    assert store.requests.finish(request.id, ROBIN, NOW + MINUTE)
    assert not store.requests.finish(request.id, WREN, NOW + MINUTE)
    assert not store.requests.take(request.id, WREN, NOW)
    assert store.requests.waiting(WREN) == ()
    assert store.outbox.waiting() == ()
    done = store.requests.read(request.id, WREN)
    assert (done.done_by, done.done) == (ROBIN, NOW + MINUTE)


def test_the_household_sees_again_what_tells_nobody_who_it_is(store):
    put(store)

    receipt = store.requests.receipt(asked().sent)

    assert (receipt.ending, receipt.with_tried, receipt.done, receipt.at) == ("001", True, False, NOW)
    assert not any(word in str(receipt) for word in ("Any Person", "+44", "1632", "KM3EQ"))
    assert store.requests.receipt("0" * 32) is None


def test_what_is_done_is_forgotten_after_its_time_and_what_waits_is_not(store, address):
    put(store, 1)
    put(store, 2)
    first, second = store.requests.waiting(WREN)
    store.requests.finish(first.id, WREN, NOW)

    assert store.requests.erase_old(NOW + KEPT) == 0
    assert store.requests.erase_old(NOW + KEPT + MINUTE) == 1
    assert store.requests.read(first.id, WREN) is None
    assert store.requests.waiting(WREN) == (second,)
    assert store.requests.receipt(first.asked.sent) is None


def test_who_asks_to_be_forgotten_is_at_once(store):
    put(store, 1)
    put(store, 2)
    first, second = store.requests.waiting(WREN)

    assert store.requests.erase(first.id, WREN)
    assert not store.requests.erase(first.id, WREN)
    assert store.requests.waiting(WREN) == (second,)
    assert len(store.outbox.waiting()) == 1


def test_nothing_is_kept_for_ever_though_nobody_noted_it_done(store):
    put(store)

    assert store.requests.erase_old(NOW + LONGEST + MINUTE) == 1
    assert store.outbox.waiting() == ()


def test_what_is_forgotten_is_not_in_the_file_any_more(store, address):
    if not address.startswith("sqlite"):
        pytest.skip("PostgreSQL frees what was deleted by itself, in its own time")
    put(store, name="Quite Unusual Name")
    store.requests.erase_old(NOW + LONGEST + MINUTE)

    folder = address.removeprefix("sqlite:///").rpartition("/")[0]
    assert not [file for file in Path(folder).iterdir() if b"Quite Unusual Name" in file.read_bytes()]


def traces(store, id: int) -> list[tuple[str, str]]:
    return [(each.by, each.did.value) for each in store.requests.trail(id)]


def test_whoever_sees_a_request_stands_in_its_trail(store):
    put(store)
    (first,) = store.requests.waiting(WREN)
    store.requests.read(first.id, ROBIN)
    assert traces(store, first.id) == [(WREN, "read"), (ROBIN, "read")]
    assert store.requests.trail(first.id)[0].fields == ("request.name", "request.phone", "request.tried")
    assert store.requests.trail(first.id + 1) == ()


def test_what_stood_in_a_request_is_not_in_its_trail(store, address):
    put(store)
    store.requests.read(store.requests.waiting(WREN)[0].id, WREN)
    with behind(address) as connection:
        rows = str(connection.execute(text("SELECT * FROM audit")).all())
    assert asked().phone not in rows
    assert asked().name not in rows


def test_a_request_about_a_home_stands_in_the_homes_trail_too(store):
    store.put(home())
    put(store, tried={**TRIED, "home": FIRST})
    store.requests.waiting(WREN)
    assert [(each.by, each.did.value) for each in store.register.trail(FIRST)] == [(WREN, "read")]


def test_a_trail_stays_when_its_request_is_forgotten(store):
    put(store)
    (one,) = store.requests.waiting(WREN)
    store.requests.erase(one.id, WREN)
    assert store.requests.read(one.id, ROBIN) is None
    assert traces(store, one.id) == [(WREN, "read"), (WREN, "erased")]


def test_nobody_waiting_leaves_no_trace(store):
    assert store.requests.waiting(WREN) == ()
    assert store.requests.read(1, WREN) is None
    assert traces(store, 1) == []

import subprocess
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime, timedelta

import pytest

from kb.desk.events import Did, Event
from server.store import Store
from server.store.calls import NoSuchCall
from tests.server.store.building import FIRST

NOW = datetime(2026, 11, 25, 8, tzinfo=UTC)


def event(id: str, did: Did = Did.WORDS, by: str = "Wren", **said: str) -> Event:
    return Event(id, NOW, by, did, said or {"words": "it’s gone “cold”"})


@pytest.fixture
def calls(store: Store):
    store.calls.begin("one", "Wren", NOW)
    return store.calls


def test_what_happened_comes_back_as_it_was_given_in_its_order(calls) -> None:
    given = [event("b"), event("a", Did.ASKED, step="gas", answer="no"), event("c", Did.DROPPED)]
    for each in given:
        calls.add("one", each)
    assert calls.call("one").events == tuple(given)


def test_what_is_sent_twice_is_kept_once(calls) -> None:
    assert [calls.add("one", event("a")), calls.add("one", event("a"), event("b"))] == [1, 1]
    assert [each.id for each in calls.call("one").events] == ["a", "b"]


def test_the_same_id_in_two_calls_is_two_events(calls) -> None:
    calls.begin("two", "Ash", NOW)
    assert [calls.add("one", event("a")), calls.add("two", event("a", words="other"))] == [1, 1]
    assert calls.call("two").events[0].get("words") == "other"


def test_what_is_sent_at_the_same_moment_by_many_is_kept_once(calls) -> None:
    with ThreadPoolExecutor(4) as four:
        new = list(four.map(lambda _: calls.add("one", event("a")), range(12)))
    assert sum(new) == 1


def test_two_calls_at_once_stay_apart(calls, address) -> None:
    calls.begin("two", "Ash", NOW)
    with ThreadPoolExecutor(4) as four:
        list(four.map(lambda n: calls.add(("one", "two")[n % 2], event(f"e{n}", words=str(n % 2))), range(20)))
    with Store(address) as other:
        for number, id in enumerate(("one", "two")):
            assert {each.get("words") for each in other.calls.call(id).events} == {str(number)}


def test_a_call_that_nobody_began_keeps_nothing(calls) -> None:
    with pytest.raises(NoSuchCall):
        calls.add("ghost", event("a"))
    assert calls.call("ghost") is None


def test_beginning_twice_begins_once(calls) -> None:
    calls.begin("one", "Ash", NOW + timedelta(hours=1))
    assert (calls.call("one").holder, calls.call("one").began) == ("Wren", NOW)


def test_a_call_is_open_until_it_is_closed(calls) -> None:
    calls.begin("two", "Ash", NOW - timedelta(minutes=5))
    assert [each.id for each in calls.open()] == ["two", "one"]
    calls.add("two", event("a", Did.CLOSED, how="booked"))
    assert [each.id for each in calls.open()] == ["one"]
    assert (calls.call("two").how, calls.call("two").closed) == ("booked", NOW)


def test_a_colleague_takes_a_call_over(calls, address) -> None:
    calls.add("one", event("a", Did.HANDED, to="Ash"))
    with Store(address) as other:
        assert other.calls.open()[0].holder == "Ash"


def test_a_call_solved_by_phone_is_followed_up_once(calls) -> None:
    later = NOW + timedelta(hours=48)
    calls.add("one", event("a", Did.CLOSED, how="solved", follow=later.isoformat()))
    assert calls.to_follow(later - timedelta(minutes=1)) == ()
    assert [each.id for each in calls.to_follow(later)] == ["one"]
    calls.add("one", event("b", Did.FOLLOWED, works="yes"))
    assert calls.to_follow(later) == ()


def test_the_earlier_calls_of_a_home_are_found(calls) -> None:
    for number, days in enumerate((40, 20, 3)):
        calls.begin(f"old{number}", "Wren", NOW - timedelta(days=days))
        calls.add(f"old{number}", event("a", Did.HOME, key=FIRST))
    calls.add("one", event("a", Did.HOME, key=FIRST))
    found = calls.of_home(FIRST, NOW - timedelta(days=28), but="one")
    assert [each.id for each in found] == ["old2", "old1"]


ADDING = """
from datetime import UTC, datetime
from kb.desk.events import Did, Event
from server.store import Store
store = Store({address!r})
for number in range(10_000):
    store.calls.add("one", Event(f"e{{number}}", datetime.now(UTC), "Wren", Did.WORDS, {{"words": str(number)}}))
    print(number, flush=True)
"""


def test_a_process_that_is_killed_loses_nothing_it_acknowledged(calls, address) -> None:
    process = subprocess.Popen(
        [sys.executable, "-c", ADDING.format(address=address)], stdout=subprocess.PIPE, text=True
    )
    assert process.stdout is not None
    for _ in range(20):
        process.stdout.readline()
    process.kill()
    acknowledged = 20 + len(process.stdout.read().splitlines())
    process.wait(10)
    process.stdout.close()
    time.sleep(0.05)
    kept = [each.get("words") for each in calls.call("one").events]
    assert len(kept) in (acknowledged, acknowledged + 1)
    assert kept == [str(number) for number in range(len(kept))]

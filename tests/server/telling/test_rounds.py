import logging
from datetime import timedelta

import pytest

from server.store import Store
from server.store.outbox import LEASE, Letter
from server.telling.courier import NotTold, Still
from server.telling.rounds import LONG, LOOK_AGAIN, PAUSES, Round
from tests.requests import NOW, Clock, asked

MINUTE = timedelta(minutes=1)


class Courier:
    """Keeps what it was told, or says why it was not."""

    way = "mail"

    def __init__(self, clock: Clock) -> None:
        self.told: list[str] = []
        self.tried = 0
        self.fails: set[str] = set()
        self.slow_by = timedelta()
        self._clock = clock

    def tell(self, letter: Letter, still: Still) -> None:
        self.tried += 1
        self._clock.on(self.slow_by)
        still()
        sent = letter.request.asked.sent
        if "all" in self.fails or sent[-1] in self.fails:
            raise NotTold("a server", "none", "Start it.")
        self.told.append(sent[-1])


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def courier(clock: Clock) -> Courier:
    return Courier(clock)


@pytest.fixture
def rounds(store: Store, courier: Courier, clock: Clock) -> Round:
    return Round(store.outbox, courier, clock, clock.seconds)


def put(store: Store, *numbers: int) -> None:
    for number in numbers:
        store.requests.put(asked(number), ["mail"], f"address {number}", NOW)


def test_everything_that_waits_is_told_in_order_and_once(store, courier, rounds):
    put(store, 1, 2, 3)

    assert rounds.go() == LOOK_AGAIN
    rounds.go()
    assert courier.told == ["1", "2", "3"]


def test_what_failed_is_tried_again_after_growing_pauses_until_it_is_told(store, courier, rounds, clock):
    put(store, 1)
    courier.fails = {"all"}
    for pause in (*PAUSES, PAUSES[-1], PAUSES[-1]):
        tried = courier.tried
        rounds.go()
        assert courier.tried == tried + 1
        clock.on(pause - timedelta(seconds=1))
        rounds.go()
        assert courier.tried == tried + 1
        clock.on(timedelta(seconds=1))
    courier.fails = set()
    rounds.go()

    assert courier.told == ["1"]
    assert list(PAUSES) == sorted(PAUSES)


def test_one_that_fails_holds_up_no_other(store, courier, rounds):
    put(store, 1, 2, 3)
    courier.fails = {"1"}

    rounds.go()

    assert courier.told == ["2", "3"]


def test_it_rests_until_the_next_is_due(store, courier, rounds):
    put(store, 1)
    courier.fails = {"all"}

    assert rounds.go() == PAUSES[0]


def test_who_took_so_long_that_another_may_be_at_it_tells_nothing(store, courier, rounds):
    put(store, 1)
    courier.slow_by = LEASE * 0.6

    rounds.go()

    assert courier.told == []
    assert "it took longer" in store.outbox.waiting()[0].why


def test_a_way_that_fails_for_long_is_in_the_log_once_and_again_when_it_works(store, courier, rounds, clock, caplog):
    put(store, 1, 2)
    courier.fails = {"all"}
    with caplog.at_level(logging.WARNING, "tundish"):
        rounds.go()
        assert caplog.messages == []
        for _ in range(30):
            clock.on(LONG)
            rounds.go()
        assert len(caplog.messages) == 1
        courier.fails = set()
        clock.on(PAUSES[-1])
        rounds.go()

    assert len(caplog.messages) == 2
    assert "cannot be told by mail: Expected a server, found none. Start it." in caplog.messages[0]
    assert caplog.messages[1] == "Requests to call are told by mail again."
    assert not [word for word in ("Any Person", "1632", "gauge") if word in caplog.text]


def test_one_bad_letter_among_good_ones_is_in_the_log_once(store, courier, rounds, clock, caplog):
    put(store, 1)
    courier.fails = {"1"}
    with caplog.at_level(logging.ERROR, "tundish"):
        for number in range(2, 9):
            clock.on(PAUSES[-1])
            put(store, number)
            rounds.go()

    assert len(caplog.messages) == 1
    assert courier.told == [str(number) for number in range(2, 9)]

"""A server process that is killed at any moment loses nothing it said it kept."""

import re
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from threading import Event

import httpx2
import pytest

from kb.handover.record import texts
from server.store import Store
from tests.processes import NAME, PASSWORD, Server, prepare


@contextmanager
def signed_in(address: str) -> Iterator[httpx2.Client]:
    with httpx2.Client(base_url=address) as client:
        assert client.post("/staff/sign-in", data={"name": NAME, "password": PASSWORD}).status_code == 303
        yield client


def csrf(client: httpx2.Client) -> str:
    found = re.search(r'name="csrf" value="(\w+)"', client.get("/engineer").text)
    assert found
    return found[1]


def begin(client: httpx2.Client) -> tuple[str, str]:
    token = csrf(client)
    return str(client.post("/engineer/records", data={"csrf": token, "key": ""}).headers["location"]), token


def keep(client: httpx2.Client, record: str, token: str, number: int) -> str:
    form = {"csrf": token, "id": f"entry-{number:05}", "sequence": str(number), "field": "pump", "text": f"{number}"}
    return str(client.post(f"{record}/entries", data=form).raise_for_status().json()["kept"])


@pytest.fixture
def prepared(address: str) -> str:
    prepare(address)
    return address


def stored(database: str, record: str):
    with Store(database) as store:
        found = store.handovers.record(record.rsplit("/", 1)[1])
    assert found is not None
    return found


def test_a_process_killed_right_after_it_said_so_has_kept_everything(prepared: str) -> None:
    with Server(prepared) as server, signed_in(server.address) as client:
        record, token = begin(client)
        for number in range(1, 6):
            keep(client, record, token, number)
        server.kill()
    assert texts(stored(prepared, record).entries) == {"pump": "5"}
    assert len(stored(prepared, record).entries) == 5


def test_a_process_killed_in_the_midst_of_it_has_kept_what_it_said_it_kept(prepared: str) -> None:
    said: list[str] = []
    enough = Event()

    def go_on() -> None:
        with signed_in(server.address) as client:
            record, token = begin(client)
            said.append(record)
            for number in range(1, 5000):
                said.append(keep(client, record, token, number))
                if number == 20:
                    enough.set()

    with Server(prepared) as server, ThreadPoolExecutor(1) as one:
        writing = one.submit(go_on)
        assert enough.wait(60)
        server.kill()
        with pytest.raises(httpx2.TransportError):
            writing.result(30)
    record, *kept = said
    there = [entry.id for entry in stored(prepared, record).entries]
    assert there[: len(kept)] == kept
    assert len(there) <= len(kept) + 1


def test_a_second_process_goes_on_where_the_first_was_killed(prepared: str) -> None:
    with Server(prepared) as second, Server(prepared) as first, signed_in(first.address) as client:
        record, token = begin(client)
        keep(client, record, token, 1)
        first.kill()
        with httpx2.Client(base_url=second.address, cookies=client.cookies) as other:
            assert keep(other, record, token, 1) == "entry-00001"
            assert keep(other, record, token, 2) == "entry-00002"
            assert 'value="2"' in other.get(f"{record}/heating").text
    assert [entry.sequence for entry in stored(prepared, record).entries] == [1, 2]

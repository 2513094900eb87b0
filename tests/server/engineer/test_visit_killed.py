"""A server process that is killed at any moment loses nothing of a visit that it said it kept."""

from collections.abc import Iterator

import httpx2
import pytest

from kb.home import Home
from kb.library import load
from server.store import Store
from tests.booking import book
from tests.kb.desk.calling import ARTICLES
from tests.processes import Server, prepare
from tests.server.engineer.test_killed import csrf, signed_in
from tests.server.engineer.visiting import PLAIN

KEY = "9EJFP-R992N-EKTAM"


@pytest.fixture
def prepared(address: str) -> str:
    prepare(address)
    with Store(address) as store:
        home = store.home(KEY)
        assert isinstance(home, Home)
        book(store, load(ARTICLES), KEY, "It has credit, and the gas is on", known=home.known)
    return address


def take(client: httpx2.Client) -> tuple[str, str]:
    token = csrf(client)
    return str(client.post("/engineer/visits", data={"csrf": token, "call": "call-1"}).headers["location"]), token


def sent(texts: dict[str, str]) -> Iterator[dict[str, str]]:
    for number, (field, text) in enumerate(texts.items(), 10):
        yield {"id": f"entry-{number:05}", "sequence": str(number), "field": field, "text": text}


def test_killed_between_any_two_entries_everything_arrives_once_and_the_job_is_closed_once(prepared: str) -> None:
    entries = list(sent({**PLAIN, "close": "now"}))
    half = len(entries) // 2
    with Server(prepared) as second, Server(prepared) as first, signed_in(first.address) as client:
        visit, token = take(client)
        for entry in entries[:half]:
            client.post(f"{visit}/entries", data={"csrf": token, **entry}).raise_for_status()
        first.kill()
        # The phone does not know whether the last one was kept, so it sends it again, and then the others.
        with httpx2.Client(base_url=second.address, cookies=client.cookies) as other:
            for entry in [*entries[half - 1 :], entries[-1]]:
                said = other.post(f"{visit}/entries", data={"csrf": token, **entry}).raise_for_status().json()
                assert said["kept"] == entry["id"]
    with Store(prepared) as store:
        (job,) = store.jobs.of_home(KEY)
        assert [each.field for each in job.entries if each.id.startswith("entry-")] == [*PLAIN, "close"]
        assert job.closed
        assert store.jobs.tally("ignition-failure").jobs == 1

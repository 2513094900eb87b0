"""The engineer's room on the small application, with somebody signed in."""

import re
from collections.abc import Iterator

import pytest
from starlette.testclient import TestClient

from kb.staff import Account, Role
from server.app import create_app
from server.site import Site
from server.staff.passwords import hashed
from tests.server.conftest import WEDNESDAY_NOON

PASSWORD = "kettle lamp orbit moss"


@pytest.fixture(scope="session")
def kept_password() -> str:
    return hashed(PASSWORD)


@pytest.fixture
def engineer(site: Site, kept_password: str) -> Iterator[TestClient]:
    site.store.staff.add(Account("Robin", frozenset({Role.ENGINEER})), kept_password, WEDNESDAY_NOON)
    with TestClient(create_app(site), follow_redirects=False, raise_server_exceptions=False) as client:
        assert client.post("/staff/sign-in", data={"name": "Robin", "password": PASSWORD}).status_code == 303
        yield client


def csrf(client: TestClient) -> str:
    found = re.search(r'name="csrf" value="(\w+)"', client.get("/engineer").text)
    assert found
    return found[1]


def found(client: TestClient, typed: str, room: str = "/engineer"):
    """The page that a search leads to."""
    answer = client.post(f"{room}/find", data={"csrf": csrf(client), "find": typed})
    return client.get(answer.headers["location"]) if answer.status_code == 303 else answer


def begin(client: TestClient, key: str = "") -> str:
    """The address of a new record."""
    begun = client.post("/engineer/records", data={"csrf": csrf(client), "key": key})
    assert begun.status_code == 303
    return str(begun.headers["location"])


def write(client: TestClient, record: str, field: str, text: str, number: int = 1, id: str = ""):
    """Send one entry as the script does."""
    entry = {"id": id or f"entry-{number:05}", "sequence": str(number), "field": field, "text": text}
    return client.post(f"{record}/entries", data={"csrf": csrf(client), **entry})

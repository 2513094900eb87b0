"""Errors in the rooms: the rooms' own line and way on, never the household's page, whatever fails."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest
from starlette.testclient import TestClient

from kb.staff import Account, Role
from server.app import create_app
from server.site import Site
from server.staff.errors import is_room
from server.staff.passwords import hashed
from server.store import StoreUnavailable
from tests.server.conftest import MOVED_OUT, WEDNESDAY_NOON

PASSWORD = "kettle lamp orbit moss"
ROOMS = frozenset({Role.DESK, Role.OFFICE})


class Broken:
    """A store of which one part fails with an error, and with `all` everything."""

    def __init__(self, store: Any, error: Exception, all: bool = False) -> None:
        self.error, self.all, self.store = error, all, store

    def __getattr__(self, name: str) -> Any:
        if self.all or name == "calls":
            raise self.error
        return getattr(self.store, name)


@pytest.fixture(scope="module")
def kept() -> str:
    return hashed(PASSWORD)


@pytest.fixture
def staffed(site: Site, kept: str) -> Site:
    site.store.staff.add(Account("Wren", ROOMS), kept, WEDNESDAY_NOON)
    return site


@pytest.fixture
def wren(staffed: Site) -> Iterator[TestClient]:
    with TestClient(create_app(staffed), raise_server_exceptions=False) as client:
        client.post("/staff/sign-in", data={"name": "Wren", "password": PASSWORD})
        yield client


def in_room(text: str) -> bool:
    """Whether a page has the line of the rooms that are open to Wren, and nothing made for a household."""
    return (
        '<a href="/desk">Desk</a>' in text
        and "Sign out" in text
        and "0800 111 999" in text
        and '<a href="/engineer">' not in text
        and "key from my card" not in text
    )


@pytest.mark.parametrize(
    ("address", "status", "says"),
    [
        ("/desk/nowhere", 404, "go on from one of your rooms"),
        ("/office/nowhere/at/all", 404, "This page is not here"),
        (f"/office/homes/{MOVED_OUT.key}", 410, "The home has a new one"),
        ("/engineer", 403, "belongs to another room"),
    ],
)
def test_what_a_room_refuses_is_said_within_the_room(wren: TestClient, address: str, status: int, says: str) -> None:
    answer = wren.get(address)

    assert answer.status_code == status
    assert says in answer.text
    assert in_room(answer.text)


def test_a_form_from_nowhere_is_refused_within_the_room(wren: TestClient) -> None:
    answer = wren.post("/desk", data={"csrf": "made up"})

    assert answer.status_code == 403
    assert in_room(answer.text)


@pytest.mark.parametrize(
    ("error", "status"), [(RuntimeError("an inner secret"), 500), (StoreUnavailable("an inner secret"), 503)]
)
def test_our_own_failure_keeps_the_rooms_line_and_tells_nothing_from_within(
    staffed: Site, error: Exception, status: int
) -> None:
    broken = replace(staffed, store=Broken(staffed.store, error))  # type: ignore[arg-type]
    with TestClient(create_app(broken), raise_server_exceptions=False) as client:
        client.post("/staff/sign-in", data={"name": "Wren", "password": PASSWORD})
        answer = client.get("/desk")

    assert answer.status_code == status
    assert "secret" not in answer.text
    assert in_room(answer.text)


def test_with_nothing_in_reach_the_page_still_comes_and_gives_the_number(staffed: Site) -> None:
    broken = replace(staffed, store=Broken(staffed.store, StoreUnavailable("gone"), all=True))  # type: ignore[arg-type]
    with TestClient(create_app(broken), raise_server_exceptions=False) as client:
        client.cookies.set("tundish", "whatever")
        answer = client.get("/desk")

    assert answer.status_code == 503
    assert "0800 111 999" in answer.text
    assert 'href="/staff/sign-in"' in answer.text


@pytest.mark.parametrize(
    ("path", "staff"),
    [("/desk", True), ("/office/homes/x", True), ("/staff/sign-in", True), ("/deskless", False), ("/h/x", False)],
)
def test_only_the_rooms_are_rooms(path: str, staff: bool) -> None:
    assert is_room(path) is staff

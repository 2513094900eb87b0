"""Somebody of the office, and of the desk, with a visit that was booked."""

from collections.abc import Iterator
from datetime import UTC, date, datetime

import pytest
from starlette.testclient import TestClient

from kb.appointment import Appointment, Window, said
from kb.desk.events import Did, Event
from kb.staff import Account, Role
from server.app import create_app
from server.site import Site
from server.staff.passwords import hashed
from tests.booking import BEGAN, book
from tests.server.conftest import SEALED, WEDNESDAY_NOON

PASSWORD = "kettle lamp orbit moss"
TOMORROW = Appointment(Window(date(2026, 11, 26), 480, 720), "Robin", by="Wren", at=BEGAN)


@pytest.fixture(scope="session")
def kept_password() -> str:
    return hashed(PASSWORD)


@pytest.fixture
def staffed(site: Site, kept_password: str) -> Site:
    for name, role in (("Robin", Role.ENGINEER), ("Sam", Role.ENGINEER), ("Wren", Role.DESK), ("Ash", Role.OFFICE)):
        site.store.staff.add(Account(name, frozenset({role})), kept_password, WEDNESDAY_NOON)
    return site


def signed_in(site: Site, name: str) -> TestClient:
    client = TestClient(create_app(site), follow_redirects=False, raise_server_exceptions=False)
    assert client.post("/staff/sign-in", data={"name": name, "password": PASSWORD}).status_code == 303
    return client


@pytest.fixture
def office(staffed: Site) -> Iterator[TestClient]:
    with signed_in(staffed, "Ash") as client:
        yield client


@pytest.fixture
def robin(staffed: Site) -> Iterator[TestClient]:
    with signed_in(staffed, "Robin") as client:
        yield client


def booked(
    site: Site, agreed: Appointment | None = TOMORROW, id: str = "call-1", at: datetime = BEGAN, key: str = SEALED.key
) -> None:
    """A call about a home that was booked, with what was agreed of the visit."""
    book(site.store, site.library, key, id=id, known=SEALED.known, at=at)
    if agreed is not None:
        site.store.calls.add(id, Event("agreed", at, "Wren", Did.BOOKED, said(agreed)))


AFTERNOON = datetime(2026, 11, 25, 15, tzinfo=UTC)

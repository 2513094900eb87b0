"""Somebody of the office, signed in, with a register of their own."""

import re
from collections.abc import Iterator
from dataclasses import replace

import pytest
from starlette.responses import Response
from starlette.testclient import TestClient

from kb.register import Record
from kb.staff import Account, Role
from server.app import create_app
from server.site import Site
from server.staff.passwords import hashed
from tests.registers import FIRST, record
from tests.server.conftest import WEDNESDAY_NOON

PASSWORD = "kettle lamp orbit moss"


@pytest.fixture(scope="session")
def hash_of_password() -> str:
    return hashed(PASSWORD)


class Office:
    """A browser at the office, which sends forms as its pages have them."""

    def __init__(self, client: TestClient, site: Site) -> None:
        self.client = client
        self.site = site
        self.csrf = ""

    def sign_in(self, name: str) -> None:
        self.client.post("/staff/sign-in", data={"name": name, "password": PASSWORD})
        self.csrf = re.findall(r'name="csrf" value="(\w+)"', self.client.get("/staff/calendar").text)[0]

    def get(self, address: str) -> Response:
        return self.client.get(address)

    def post(self, address: str, **fields: str) -> Response:
        return self.client.post(address, data={"csrf": self.csrf, **fields})

    def save(self, address: str, **changes: str) -> Response:
        """Open a form, change some fields by their path, and send all of it."""
        return self.client.post(address, data={**form_in(self.get(address).text), **changes})

    def record(self) -> Record:
        found = self.site.store.register.read(FIRST, "test")
        assert found is not None
        return found


def form_in(page: str) -> dict[str, str]:
    """What a browser would send of the filling form on a page."""
    form = re.findall(r'<form class="filling".*?</form>', page, re.S)[0]
    fields = {}
    for tag in re.findall(r"<input[^>]*>", form):
        name, value = re.search(r'name="([^"]*)"', tag), re.search(r'value="([^"]*)"', tag)
        if name and ("checkbox" not in tag or " checked" in tag):
            fields[name[1]] = value[1].replace("&#39;", "'") if value else ""
    for name, options in re.findall(r'<select[^>]*name="([^"]*)"[^>]*>(.*?)</select>', form, re.S):
        chosen = re.findall(r'<option value="([^"]*)" selected', options) or re.findall(r'value="([^"]*)"', options)
        fields[name] = chosen[0]
    return fields


@pytest.fixture
def client(site: Site) -> Iterator[TestClient]:
    with TestClient(create_app(site), follow_redirects=False, raise_server_exceptions=False) as client:
        yield client


@pytest.fixture
def office(client: TestClient, site: Site, hash_of_password: str) -> Office:
    site.store.staff.add(Account("Wren", frozenset({Role.OFFICE})), hash_of_password, WEDNESDAY_NOON)
    there = Office(client, site)
    there.sign_in("Wren")
    home = replace(record(), appliances=(replace(record().appliances[0], plate="Marlpit C 30"),))
    assert site.store.register.put(home, "test") == ()
    return there

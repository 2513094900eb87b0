"""Somebody who may go into both rooms, two homes that differ in much, and a firm with a colour and a logo."""

import re
from dataclasses import replace
from datetime import date
from random import Random

import pytest
from starlette.testclient import TestClient

from kb import keys
from kb.facts import Known
from kb.home import Home
from kb.staff import Account, Role
from server.app import create_app
from server.site import Site
from server.staff.passwords import hashed
from tests.builders import firm
from tests.kb.card.cards import LOGO
from tests.server.conftest import SEALED, WEDNESDAY_NOON

PASSWORD = "kettle lamp orbit moss"
VENTED = Home(
    key=keys.make(Random(1103)),
    range="sedgebrook",
    appliance="Sedgebrook H 15",
    known=Known({"system": "vented", "fuel": "natural-gas", "flue": "open", "condensate": "none"}),
    next_service=date(2027, 6, 14),
)
HOMES = (SEALED, VENTED)
ROOMS = ("/engineer", "/office")


class Browser:
    """A browser of somebody who signed in."""

    def __init__(self, client: TestClient) -> None:
        self.client = client

    def text(self, address: str, status: int = 200) -> str:
        answered = self.client.get(address)
        assert answered.status_code == status, answered.text
        return answered.text

    def file(self, address: str, kind: str) -> bytes:
        answered = self.client.get(address)
        assert (answered.status_code, answered.headers["content-type"]) == (200, kind)
        assert answered.headers["cache-control"] == "no-store"
        return answered.content

    def pictures(self, address: str, status: int = 200) -> list[tuple[str, str]]:
        """The addresses of a page's pictures, each with its words."""
        found = re.findall(r'<img src="([^"]*)" alt="([^"]*)"', self.text(address, status))
        return [(where, words.replace("&#39;", "'")) for where, words in found]


def browsing(site: Site) -> Browser:
    client = TestClient(create_app(site), follow_redirects=False, raise_server_exceptions=False)
    assert client.post("/staff/sign-in", data={"name": "Robin", "password": PASSWORD}).status_code == 303
    return Browser(client)


@pytest.fixture(scope="session")
def secret() -> str:
    return hashed(PASSWORD)


@pytest.fixture
def shown_site(site: Site, secret: str) -> Site:
    site.store.staff.add(Account("Robin", frozenset({Role.ENGINEER, Role.OFFICE})), secret, WEDNESDAY_NOON)
    site.store.put(VENTED)
    return replace(site, firm=firm(demo=True, colour="#1d4e5f"), logo=LOGO)


@pytest.fixture
def browser(shown_site: Site) -> Browser:
    return browsing(shown_site)

"""Asking to be called as a browser without scripts does it."""

import re
from datetime import datetime

from httpx2 import Response
from starlette.testclient import TestClient

from server.site import Site
from server.store.requests import Request
from tests.requests import Clock
from tests.server.html import Page


def form_in(client: TestClient, end: str) -> dict[str, str]:
    """The form as it is shown, filled in as far as need be."""
    shown = client.get(f"{end}/call-me")
    assert shown.status_code == 200, shown.text
    found = re.search(r'name="form" value="([0-9a-f]{32})"', shown.text)
    assert found
    return {"form": found[1], "phone": "01632 960001", "name": "", "reach": "any", "website": ""}


def send(client: TestClient, end: str, **typed: str) -> Response:
    """Send a new form with this typed in."""
    return client.post(f"{end}/call-me", data=form_in(client, end) | typed)


def kept(site: Site) -> tuple[Request, ...]:
    return site.store.requests.waiting("Wren")


def received(client: TestClient, end: str, clock: Clock, asked: datetime, looked: datetime) -> str:
    """What the page says that is shown after a form sent at one moment, looked at in another."""
    clock.at = asked
    address = send(client, end).headers["location"]
    clock.at = looked
    return Page(client.get(address).text).words

"""From where the form may come, and how much of it."""

import pytest
from starlette.testclient import TestClient

from server.site import Site
from tests.server.household.asking import form_in, kept, send


@pytest.mark.parametrize(
    "headers",
    [
        {"sec-fetch-site": "cross-site"},
        {"sec-fetch-site": "same-site"},
        {"origin": "https://elsewhere.example"},
        {"origin": "null"},
        {"sec-fetch-site": "cross-site", "origin": "null"},
    ],
)
def test_a_form_that_another_site_sends_is_refused(
    client: TestClient, site: Site, end: str, headers: dict[str, str]
) -> None:
    form = form_in(client, end)

    assert client.post(f"{end}/call-me", data=form, headers=headers).status_code == 403
    assert kept(site) == ()


@pytest.mark.parametrize(
    "headers",
    [
        {},
        {"origin": "http://testserver"},
        {"sec-fetch-site": "same-origin", "origin": "http://testserver"},
        {"sec-fetch-site": "same-origin", "origin": "null"},
    ],
)
def test_a_form_that_our_page_sends_is_taken(client: TestClient, end: str, headers: dict[str, str]) -> None:
    form = form_in(client, end)

    assert client.post(f"{end}/call-me", data=form, headers=headers).status_code == 303


def test_the_page_lets_old_browsers_say_where_its_form_comes_from(client: TestClient, end: str) -> None:
    # Fetch standard, "append a request Origin header": under the policy no-referrer a form is sent from "null".
    assert client.get(f"{end}/call-me").headers["referrer-policy"] == "same-origin"


def test_more_than_the_form_can_hold_is_refused(client: TestClient, end: str) -> None:
    assert send(client, end, name="x" * 9000).status_code == 413

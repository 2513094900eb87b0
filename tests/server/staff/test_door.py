import re
from collections.abc import Iterator

import pytest
from starlette.responses import PlainTextResponse, Response
from starlette.testclient import TestClient

from kb.staff import Account, Role
from server.app import create_app
from server.site import Site
from server.staff import Door, Visit
from server.staff.passwords import hashed
from tests.server.conftest import WEDNESDAY_NOON

PASSWORD = "kettle lamp orbit moss"


@pytest.fixture(scope="module")
def kept() -> str:
    return hashed(PASSWORD)


@pytest.fixture
def client(site: Site, kept: str) -> Iterator[TestClient]:
    site.store.staff.add(Account("Wren", frozenset({Role.DESK})), kept, WEDNESDAY_NOON)
    app = create_app(site)
    door = Door(site)

    def said(visit: Visit) -> Response:
        return PlainTextResponse(f"{visit.who.name} {visit.form.get('said', '')}")

    app.add_api_route("/a-desk", door.reading(Role.DESK, said), methods=["GET"])
    app.add_api_route("/a-desk", door.changing(Role.DESK, said), methods=["POST"])
    app.add_api_route("/an-office", door.reading(Role.OFFICE, said), methods=["GET"])
    app.add_api_route("/an-office", door.changing(Role.OFFICE, said), methods=["POST"])
    with TestClient(app, follow_redirects=False, raise_server_exceptions=False) as client:
        yield client


def sign_in(client: TestClient, to: str = "", **form: str):
    return client.post("/staff/sign-in", data={"name": "Wren", "password": PASSWORD, "to": to, **form})


def csrf(client: TestClient) -> str:
    found = re.search(r'name="csrf" value="(\w+)"', client.get("/staff", follow_redirects=True).text)
    assert found
    return found[1]


def test_a_page_of_the_staff_asks_to_sign_in_first_and_then_goes_there(client: TestClient) -> None:
    asked = client.get("/a-desk")
    assert (asked.status_code, asked.headers["location"]) == (303, "/staff/sign-in?to=/a-desk")
    assert 'name="to" value="/a-desk"' in client.get(asked.headers["location"]).text

    assert sign_in(client, to="/a-desk").headers["location"] == "/a-desk"
    assert client.get("/a-desk").text == "Wren "


@pytest.mark.parametrize(
    "to", ["https://elsewhere.example/", "//elsewhere.example", "/\\elsewhere.example", "javascript:1"]
)
def test_nobody_is_sent_to_another_site_after_signing_in(client: TestClient, to: str) -> None:
    assert sign_in(client, to=to).headers["location"] == "/staff"


def test_a_wrong_password_is_told_and_the_name_kept(client: TestClient) -> None:
    refused = sign_in(client, password="wrong")

    assert refused.status_code == 403
    assert "is not right" in refused.text
    assert 'value="Wren"' in refused.text
    assert "set-cookie" not in refused.headers


def test_the_cookie_is_kept_from_scripts_and_other_sites(client: TestClient) -> None:
    cookie = sign_in(client).headers["set-cookie"].lower()

    assert "httponly" in cookie
    assert "samesite=lax" in cookie


def test_behind_tls_the_cookie_is_held_to_this_host(client: TestClient) -> None:
    client.base_url = client.base_url.copy_with(scheme="https")
    cookie = sign_in(client).headers["set-cookie"]

    assert cookie.startswith("__Host-tundish=")
    assert "secure" in cookie.lower()


def test_another_role_is_not_let_in(client: TestClient) -> None:
    sign_in(client)

    assert client.get("/an-office").status_code == 403
    assert client.post("/an-office", data={"csrf": csrf(client)}).status_code == 403


def test_a_form_of_ours_is_taken(client: TestClient) -> None:
    sign_in(client)

    assert client.post("/a-desk", data={"csrf": csrf(client), "said": "hello"}).text == "Wren hello"


@pytest.mark.parametrize("token", ["", "wrong", "é"])
def test_a_form_without_this_sessions_token_is_refused(client: TestClient, token: str) -> None:
    sign_in(client)

    assert client.post("/a-desk", data={"csrf": token}).status_code == 403


@pytest.mark.parametrize(
    "headers", [{"sec-fetch-site": "cross-site"}, {"origin": "https://elsewhere.example"}, {"origin": "null"}]
)
@pytest.mark.parametrize("address", ["/a-desk", "/staff/sign-in", "/staff/sign-out"])
def test_a_form_sent_by_another_site_is_refused(client: TestClient, address: str, headers: dict[str, str]) -> None:
    sign_in(client)
    form = {"csrf": csrf(client), "name": "Wren", "password": PASSWORD}

    assert client.post(address, data=form, headers=headers).status_code == 403


def test_a_form_of_ours_is_taken_from_a_page_that_hands_on_no_address(client: TestClient) -> None:
    # Fetch standard, "append a request Origin header": under the policy no-referrer the origin is "null".
    sent = {"sec-fetch-site": "same-origin", "origin": "null"}

    signed_in = client.post("/staff/sign-in", data={"name": "Wren", "password": PASSWORD}, headers=sent)

    assert signed_in.headers["location"] == "/staff"


def test_a_form_that_is_too_large_is_refused_before_it_is_read(client: TestClient) -> None:
    sign_in(client)

    assert client.post("/a-desk", data={"csrf": csrf(client), "said": "x" * 2_000_001}).status_code == 413


def test_signing_out_ends_the_session_itself(client: TestClient) -> None:
    sign_in(client)
    held = client.cookies["tundish"]
    client.post("/staff/sign-out", data={"csrf": csrf(client)})
    client.cookies.set("tundish", held)

    assert client.get("/a-desk").status_code == 303


def test_too_many_failures_are_told_to_wait(client: TestClient) -> None:
    for _ in range(5):
        sign_in(client, password="wrong")

    assert sign_in(client).status_code == 429


def test_a_page_of_the_staff_is_never_kept_by_a_browser(client: TestClient) -> None:
    sign_in(client)

    assert client.get("/staff", follow_redirects=True).headers["cache-control"] == "no-store"

"""What a page says when something behind it fails: never what failed."""

from dataclasses import replace

import pytest
from starlette.testclient import TestClient

from server.app import create_app
from server.site import Site
from server.store import StoreUnavailable
from tests.server.conftest import SEALED


class Broken:
    """A store or finder that fails whatever it is asked."""

    def __init__(self, error: Exception) -> None:
        self.error = error

    def home(self, key: str) -> object:
        raise self.error

    def find(self, *asked: object) -> object:
        raise self.error


def page(site: Site, address: str) -> tuple[int, str]:
    with TestClient(create_app(site), raise_server_exceptions=False) as client:
        answer = client.get(address)
    return answer.status_code, answer.text


def test_a_store_out_of_reach_is_503_and_the_public_pages_still_help(site: Site) -> None:
    broken = replace(site, store=Broken(StoreUnavailable("the secret address of the database")))

    status, text = page(broken, f"/h/{SEALED.key}")

    assert status == 503
    assert "secret" not in text
    assert "0800 111 999" in text
    assert page(broken, "/help/low-pressure/none")[0] == 200


@pytest.mark.parametrize(("address", "in_json"), [("/find?words=x", False), ("/api/find?words=x", True)])
def test_our_own_failure_is_500_without_its_inner_text(site: Site, address: str, in_json: bool) -> None:
    broken = replace(site, finder=Broken(RuntimeError("an inner secret")))

    status, text = page(broken, address)

    assert status == 500
    assert "secret" not in text
    assert "01632 960123" in text
    assert text.startswith("{") is in_json


def test_another_method_is_405(site: Site) -> None:
    with TestClient(create_app(site)) as client:
        answer = client.post("/help/low-pressure/none")

    assert answer.status_code == 405
    assert "0800 111 999" in answer.text


def test_a_page_answers_head_like_get(site: Site) -> None:
    with TestClient(create_app(site)) as client:
        assert (
            client.head("/help/low-pressure/none").headers["etag"]
            == client.get("/help/low-pressure/none").headers["etag"]
        )

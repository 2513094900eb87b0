"""Two server processes on one PostgreSQL: what one of them learns, the other knows."""

from collections.abc import Iterator

import httpx2
import pytest

from demo.load import keys
from server.store import Store
from tests.postgres import Cluster
from tests.processes import NAME, PASSWORD, Server, prepare


@pytest.fixture(scope="module")
def database(postgres: Cluster, newest_template: str) -> Iterator[str]:
    name = postgres.create(newest_template)
    address = postgres.address(name)
    prepare(address)
    yield address
    postgres.drop(name)


@pytest.fixture(scope="module")
def two(database: str) -> Iterator[tuple[str, str]]:
    with Server(database) as first, Server(database) as second:
        yield first.address, second.address


def sign_in(address: str, password: str = PASSWORD, name: str = NAME) -> httpx2.Response:
    return httpx2.post(f"{address}/staff/sign-in", data={"name": name, "password": password})


def test_who_signed_in_at_one_is_signed_in_at_the_other_until_signed_out(two: tuple[str, str]) -> None:
    first, second = two
    cookies = sign_in(first).cookies
    assert httpx2.get(f"{second}/engineer", cookies=cookies).status_code == 200

    page = httpx2.get(f"{second}/engineer", cookies=cookies).text
    token = page.split('name="csrf" value="', 1)[1].split('"', 1)[0]
    httpx2.post(f"{second}/staff/sign-out", data={"csrf": token}, cookies=cookies)

    assert httpx2.get(f"{first}/engineer", cookies=cookies).headers["location"].startswith("/staff/sign-in")


def test_failures_at_both_count_together(two: tuple[str, str]) -> None:
    first, second = two
    statuses = [sign_in(address, "wrong", "somebody else").status_code for address in (first, second) * 3]

    assert statuses == [403] * 5 + [429]


def test_a_key_that_was_replaced_is_gone_from_both(two: tuple[str, str], database: str) -> None:
    old = keys()[0]
    assert [httpx2.get(f"{address}/h/{old}").status_code for address in two] == [200, 200]

    with Store(database) as store:
        new = store.register.replace_key(old, by="a test")

    assert [httpx2.get(f"{address}/h/{old}").status_code for address in two] == [410, 410]
    assert [httpx2.get(f"{address}/h/{new}").status_code for address in two] == [200, 200]

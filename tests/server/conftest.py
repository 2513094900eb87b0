"""A whole application on a small library, with two homes in a fresh database."""

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from random import Random

import pytest
from starlette.testclient import TestClient

from kb import keys
from kb.facts import GaugeMarks, Known
from kb.home import Home
from kb.library import load
from kb.ranges import load_ranges
from kb.search import build
from server.app import create_app
from server.site import Site
from server.store import Store
from server.store.upgrade import migrate
from tests.builders import firm

ROOT = Path(__file__).parents[2]
WEDNESDAY_NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)

SEALED = Home(
    key=keys.make(Random(1101)),
    range="marlpit-c",
    appliance="Marlpit C 28",
    known=Known({"system": "sealed", "fuel": "natural-gas", "filling-loop": "keyed"}, GaugeMarks(0.9, 1.3, 1.9)),
    places={"stop-tap": "under the kitchen sink"},
)
MOVED_OUT = Home(key=keys.make(Random(1102)), range="marlpit-c", appliance="Marlpit C 28")


@pytest.fixture(scope="session")
def books() -> object:
    return load(ROOT / "articles/en")


@pytest.fixture(scope="session")
def finder(books: object) -> object:
    return build(books)


@pytest.fixture
def site(tmp_path: Path, books, finder) -> Iterator[Site]:
    address = f"sqlite:///{tmp_path / 'homes.db'}"
    migrate(address)
    with Store(address) as store:
        store.put(SEALED)
        store.put(MOVED_OUT)
        store.revoke(MOVED_OUT.key)
        ranges, _ = load_ranges(ROOT / "demo/ranges")
        yield Site(books, finder, firm(), ranges, store, now=lambda: WEDNESDAY_NOON)


@pytest.fixture
def client(site: Site) -> Iterator[TestClient]:
    with TestClient(create_app(site), follow_redirects=False, raise_server_exceptions=False) as client:
        yield client

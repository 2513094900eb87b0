"""Ends to stand at, and a clock that can be moved."""

from collections.abc import Iterator
from dataclasses import replace

import pytest
from starlette.testclient import TestClient

from kb.article import Pace
from server.app import create_app
from server.site import Site
from tests.requests import Clock
from tests.server.conftest import SEALED, WEDNESDAY_NOON
from tests.server.household.ends import end_of_pace


@pytest.fixture
def end(site: Site) -> str:
    """The address of an end that wants somebody today."""
    return end_of_pace(site.library, Pace.TODAY)


@pytest.fixture
def home_end(site: Site) -> str:
    """The address of such an end for the home, without what lies before it."""
    return end_of_pace(site.library, Pace.TODAY, site.known(SEALED))


@pytest.fixture
def clock() -> Clock:
    return Clock(WEDNESDAY_NOON)


@pytest.fixture
def client(site: Site, clock: Clock) -> Iterator[TestClient]:
    app = create_app(replace(site, now=clock))
    with TestClient(app, follow_redirects=False, raise_server_exceptions=False) as client:
        yield client

"""A database of each kind there is, for whatever keeps something: every test that asks for one runs on both."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from server.store.upgrade import migrate
from tests.postgres import Cluster, quick_folder, running


@pytest.fixture(scope="session")
def postgres() -> Iterator[Cluster]:
    """The one PostgreSQL server of a test run, started for the first test that asks."""
    with running() as cluster:
        yield cluster


@pytest.fixture(params=["sqlite", "postgresql"])
def kind(request: pytest.FixtureRequest) -> str:
    """Which kind of database a test runs on."""
    return str(request.param)


@pytest.fixture
def quick() -> Iterator[Path]:
    """A folder of the test's own, in memory where there is plenty."""
    with quick_folder() as folder:
        yield folder


@pytest.fixture
def empty(kind: str, quick: Path, request: pytest.FixtureRequest) -> Iterator[str]:
    """The address of a database with nothing in it."""
    if kind == "sqlite":
        yield f"sqlite:///{quick / 'tundish.db'}"
    else:
        yield from _copied(request.getfixturevalue("postgres"), "template1")


@pytest.fixture
def address(kind: str, quick: Path, request: pytest.FixtureRequest) -> Iterator[str]:
    """The address of a database of this program's version, without any home."""
    if kind == "sqlite":
        shutil.copyfile(request.getfixturevalue("newest_file"), quick / "tundish.db")
        yield f"sqlite:///{quick / 'tundish.db'}"
    else:
        yield from _copied(request.getfixturevalue("postgres"), request.getfixturevalue("newest_template"))


@pytest.fixture(scope="session")
def newest_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A SQLite file of this program's version, to be copied."""
    file = tmp_path_factory.mktemp("newest") / "tundish.db"
    migrate(f"sqlite:///{file}")
    return file


@pytest.fixture(scope="session")
def newest_template(postgres: Cluster) -> str:
    """The name of a PostgreSQL database of this program's version, to be copied."""
    name = postgres.create()
    migrate(postgres.address(name))
    return name


def _copied(cluster: Cluster, template: str) -> Iterator[str]:
    name = cluster.create(template)
    yield cluster.address(name)
    cluster.drop(name)

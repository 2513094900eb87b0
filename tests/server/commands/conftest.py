"""A machine with a database of its own."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from server.store import Store
from server.store.upgrade import migrate


@pytest.fixture
def machine(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Store]:
    address = f"sqlite:///{tmp_path / 'tundish.db'}"
    migrate(address)
    monkeypatch.setenv("TUNDISH_DATABASE", address)
    with Store(address) as store:
        yield store

"""An author's folders with a small library, and the desk on them."""

from datetime import datetime
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from server.author import Shelf, create_desk
from tests.kb.rules.samples import Sample, settle

NOON = datetime(2026, 12, 1, 12)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """The samples' small library, which has no findings, with its ranges beside the articles."""
    settle(Sample("a-test", 0, "household", "", HUM), tmp_path)
    return tmp_path


HUM = """
### Does it hum?

Listen at the case.

> Keep clear of steam.

- [Yes](#is-it-loud)
- [No](ends.md#nothing-is-wrong)

### Is it loud?

- [Yes](ends.md#book-a-visit)
- [No](ends.md#nothing-is-wrong)
"""


@pytest.fixture
def shelf(folder: Path) -> Shelf:
    return Shelf(folder, folder / "ranges", now=lambda: NOON)


@pytest.fixture
def desk(shelf: Shelf) -> TestClient:
    return TestClient(create_desk(shelf), "http://127.0.0.1", raise_server_exceptions=False, follow_redirects=False)

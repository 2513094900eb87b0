from collections.abc import Iterator

import pytest

from server.store import Store


@pytest.fixture
def store(address: str) -> Iterator[Store]:
    """A store without any home."""
    with Store(address) as store:
        yield store

"""A real browser, and the demo served as somebody starts it."""

import re
import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect, sync_playwright

from tests.processes import free_port, running

FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync"]  # fmt: skip

# Two workers share two cores with their browsers and servers: what takes a moment alone may take many.
expect.set_options(timeout=20_000)


@dataclass(frozen=True, slots=True)
class Demo:
    """The demo as somebody starts it, with what it printed."""

    address: str
    said: Path

    def password(self, name: str) -> str:
        """The password that was printed for one of its accounts."""
        found = re.search(rf"^ +{name} +(\S+)$", self.said.read_text(), re.M)
        assert found, self.said.read_text()
        return found[1]


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Demo]:
    """`python -m demo`, once for all that look at it."""
    folder, port = tmp_path_factory.mktemp("demo"), free_port()
    where = {"TUNDISH_PORT": str(port), "TUNDISH_DATABASE": f"sqlite:///{folder / 'demo.db'}", "PATH": "/usr/bin:/bin"}
    with (folder / "said.txt").open("w") as out, running("demo", port=port, environment=where, out=out) as address:
        yield Demo(address, folder / "said.txt")


@pytest.fixture(scope="session")
def served(demo: Demo) -> str:
    """The address of the demo."""
    return demo.address


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Debian's chromium, driven without a screen."""
    chromium = shutil.which("chromium")
    assert chromium, "Expected the command chromium. Install it: sudo apt-get install chromium"
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=chromium, args=FLAGS)
        yield opened
        opened.close()

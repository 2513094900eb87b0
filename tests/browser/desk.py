"""The demo with somebody at its desk, and the keys that are pressed there."""

import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from playwright.sync_api import Page

from kb.staff import Account, Role
from server.staff.passwords import hashed
from server.store import Store
from tests.browser.conftest import ROOT, free_port

PASSWORD = "kettle lamp orbit moss"


@dataclass
class Served:
    """A site on a port, its database, and the process that serves it."""

    address: str
    database: str
    port: int
    process: subprocess.Popen[bytes]

    def kill(self) -> None:
        self.process.kill()
        self.process.wait(10)

    def start(self) -> None:
        self.process = start(self.port, self.database)


def start(port: int, database: str) -> subprocess.Popen[bytes]:
    environment = {"TUNDISH_PORT": str(port), "TUNDISH_DATABASE": database, "PATH": "/usr/bin:/bin"}
    process = subprocess.Popen([sys.executable, "-m", "demo"], cwd=ROOT, env=environment, stdout=subprocess.DEVNULL)
    for _ in range(900):
        assert process.poll() is None, "the demo did not start"
        try:
            urllib.request.urlopen(f"http://127.0.0.1:{port}").close()
            return process
        except OSError:
            time.sleep(0.1)
    raise AssertionError("the demo did not answer")


@contextmanager
def served_desk(folder: Path) -> Iterator[Served]:
    """The demo, with Wren and Ash at its desk."""
    database, port = f"sqlite:///{folder / 'demo.db'}", free_port()
    served = Served(f"http://127.0.0.1:{port}", database, port, start(port, database))
    try:
        with Store(database) as store:
            for name in ("Wren", "Ash"):
                store.staff.add(Account(name, frozenset({Role.DESK})), hashed(PASSWORD), datetime.now(UTC))
        yield served
    finally:
        served.kill()


def sign_in(page: Page, served: Served, name: str = "Wren") -> None:
    page.goto(f"{served.address}/staff/sign-in")
    page.get_by_label("Name").fill(name)
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url("**/desk")
    page.wait_for_function("!('settling' in document.documentElement.dataset)")


class Keyboard:
    """Hands on a keyboard that count what they press."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.pressed = 0

    def key(self, *keys: str) -> "Keyboard":
        """A key at a time, each when the page before it has come."""
        for each in keys:
            self.look()
            self.page.keyboard.press(each)
            self.pressed += 1
            self.page.locator("html:not([data-sent])").wait_for()
            self.page.wait_for_load_state("load")
            self.look()
        return self

    def look(self) -> None:
        """Wait, as people do, until there was something to read."""
        self.page.wait_for_function("!('settling' in document.documentElement.dataset)")

    def writes(self, words: str) -> "Keyboard":
        """Words into the field that has the focus; typed words are counted as one press."""
        self.page.locator("input:focus, textarea:focus").wait_for()
        self.page.keyboard.type(words)
        self.pressed += 1
        return self

    @property
    def heading(self) -> str:
        return self.page.locator("h1").inner_text()

"""A real browser on the demo, served on a port of its own."""

import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, sync_playwright

ROOT = Path(__file__).parents[2]
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync"]  # fmt: skip


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@pytest.fixture(scope="session")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of the demo, served as `python -m demo` serves it."""
    port, database = free_port(), tmp_path_factory.mktemp("demo") / "demo.db"
    environment = {"TUNDISH_PORT": str(port), "TUNDISH_DATABASE": f"sqlite:///{database}", "PATH": "/usr/bin:/bin"}
    server = subprocess.Popen([sys.executable, "-m", "demo"], cwd=ROOT, env=environment, stdout=subprocess.DEVNULL)
    address = f"http://127.0.0.1:{port}"
    try:
        for _ in range(150):
            if server.poll() is not None:
                raise AssertionError("the demo did not start")
            try:
                urllib.request.urlopen(address).close()
                break
            except OSError:
                time.sleep(0.2)
        yield address
    finally:
        server.terminate()
        server.wait(10)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Debian's chromium, driven without a screen."""
    chromium = shutil.which("chromium")
    assert chromium, "Expected the command chromium. Install it: sudo apt-get install chromium"
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=chromium, args=FLAGS)
        yield opened
        opened.close()

"""Server processes of our own for tests that stop them, or run two on one database."""

import os
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

from demo.load import load
from kb.staff import Account, Role
from server.staff.passwords import hashed
from server.store import Store

ROOT: Final = Path(__file__).parents[1]
NAME: Final = "Robin Thorne"
PASSWORD: Final = "kettle lamp orbit moss"
_PATIENCE: Final = 40.0


def prepare(database: str) -> None:
    """Load the demo's homes and an engineer's account into a database."""
    load(database)
    with Store(database) as store:
        store.staff.add(Account(NAME, frozenset({Role.ENGINEER})), hashed(PASSWORD), datetime.now(UTC))


def free_port() -> int:
    """A port that nobody listens on."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@contextmanager
def serving(database: str, port: int | None = None) -> Iterator[tuple[str, "subprocess.Popen[bytes]"]]:
    """A server process on a database: its address, and the process, to be stopped or killed."""
    port = port or free_port()
    environment = {**os.environ, "TUNDISH_PORT": str(port), "TUNDISH_DATABASE": database}
    command = [sys.executable, "-m", "server.cli", "serve"]
    process = subprocess.Popen(command, cwd=ROOT, env=environment, stdout=subprocess.DEVNULL)
    address = f"http://127.0.0.1:{port}"
    try:
        _wait(process, address)
        yield address, process
    finally:
        process.kill()
        process.wait(10)


def _wait(process: "subprocess.Popen[bytes]", address: str) -> None:
    until = time.monotonic() + _PATIENCE
    while True:
        assert process.poll() is None, "the server did not start"
        try:
            urllib.request.urlopen(address).close()
            return
        except OSError:
            assert time.monotonic() < until, "the server did not answer"
            time.sleep(0.1)

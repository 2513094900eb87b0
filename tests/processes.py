"""Servers of our own in processes of their own, for tests that use a browser, stop them, or run two on one database."""

import multiprocessing
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime
from multiprocessing.process import BaseProcess
from pathlib import Path
from types import TracebackType
from typing import IO, Final, Self

from demo.load import load
from kb.staff import Account, Role
from server.settings import Settings
from server.staff.passwords import hashed
from server.store import Store

ROOT: Final = Path(__file__).parents[1]
NAME: Final = "Robin Thorne"
PASSWORD: Final = "kettle lamp orbit moss"
ENGINEER: Final = {NAME: Role.ENGINEER}
FORKS: Final = multiprocessing.get_context("forkserver")
# There is one such mother for a test run, so whoever forks from it has to be named here.
# What a process reads before it begins is read once, so that one can be killed and started again at every step.
FORKS.set_forkserver_preload(["tests.ready", "tests.server.telling.dying"])
_PATIENCE: Final = 90.0


def prepare(database: str, people: Mapping[str, Role] = ENGINEER) -> None:
    """Load the demo's homes into a database, and an account for each of these people."""
    load(database)
    kept = hashed(PASSWORD)
    with Store(database) as store:
        for name, role in people.items():
            store.staff.add(Account(name, frozenset({role})), kept, datetime.now(UTC))


def free_port() -> int:
    """A port that nobody listens on."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@dataclass
class Server:
    """The demo's firm served from a database; `kill` ends it as a power cut would, `lives` says how many there were.

    It has the same address in every life.
    """

    database: str
    settings: Settings = field(default_factory=Settings.read)
    port: int = field(default_factory=free_port)
    lives: int = 0
    _process: BaseProcess | None = None

    @property
    def address(self) -> str:
        """Where it serves."""
        return address_of(self.port)

    def start(self) -> None:
        """Let it live, again."""
        process = FORKS.Process(target=_serve, args=(self.database, self.port, self.settings), daemon=True)
        process.start()
        self._process = process
        self.lives += 1
        _wait(self.address, process.is_alive)

    def kill(self) -> None:
        """End it without a word: SIGKILL, which no program can catch."""
        if self._process is not None:
            self._process.kill()
            self._process.join(10)

    def restart(self) -> None:
        """Kill it where it stands, and start another."""
        self.kill()
        self.start()

    def __enter__(self) -> Self:
        self.start()
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self.kill()


@contextmanager
def running(
    *module: str, port: int, environment: Mapping[str, str] | None = None, out: IO[str] | int = subprocess.DEVNULL
) -> Iterator[str]:
    """A program of ours that serves on a port, as somebody starts it: `python -m` and so on; its address."""
    process = subprocess.Popen([sys.executable, "-m", *module], cwd=ROOT, env=environment, stdout=out)
    try:
        _wait(address_of(port), lambda: process.poll() is None)
        yield address_of(port)
    finally:
        process.terminate()
        process.wait(10)


def address_of(port: int) -> str:
    """A port of this machine as a browser is told it."""
    return f"http://127.0.0.1:{port}"


def _serve(database: str, port: int, settings: Settings) -> None:
    # Only where it was preloaded: whoever collects the tests need not read the articles.
    from tests.ready import serve

    serve(database, port, settings)


def _wait(address: str, lives: Callable[[], bool]) -> None:
    """Wait until somebody answers; a machine that is busy may take its time."""
    until = time.monotonic() + _PATIENCE
    while True:
        assert lives(), "the server did not start"
        try:
            urllib.request.urlopen(address).close()
            return
        except OSError:
            assert time.monotonic() < until, "the server did not answer"
            time.sleep(0.02)

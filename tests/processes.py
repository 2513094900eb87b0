"""Server processes of our own for tests that stop them, or run two on one database."""

import multiprocessing
import socket
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from multiprocessing.process import BaseProcess
from typing import Final

from demo.load import load
from kb.staff import Account, Role
from server.staff.passwords import hashed
from server.store import Store

NAME: Final = "Robin Thorne"
PASSWORD: Final = "kettle lamp orbit moss"
_PATIENCE: Final = 40.0
_FORKS: Final = multiprocessing.get_context("forkserver")
# What a server reads before it serves is read once, so that one can be killed and started again at every step.
_FORKS.set_forkserver_preload(["tests.ready"])


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
def serving(database: str, port: int | None = None) -> Iterator[tuple[str, BaseProcess]]:
    """A server process on a database: its address, and the process, to be killed and waited for."""
    port = port or free_port()
    process = _FORKS.Process(target=_serve, args=(database, port), daemon=True)
    process.start()
    address = f"http://127.0.0.1:{port}"
    try:
        _wait(process, address)
        yield address, process
    finally:
        process.kill()
        process.join(10)


def _serve(database: str, port: int) -> None:
    # Only where it was preloaded: whoever collects the tests need not read the articles.
    from tests.ready import serve

    serve(database, port)


def _wait(process: BaseProcess, address: str) -> None:
    until = time.monotonic() + _PATIENCE
    while True:
        assert process.is_alive(), "the server did not start"
        try:
            urllib.request.urlopen(address).close()
            return
        except OSError:
            assert time.monotonic() < until, "the server did not answer"
            time.sleep(0.02)

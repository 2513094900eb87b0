"""A server that is killed, as by a power cut, and started again at the same address."""

import subprocess
from contextlib import ExitStack
from types import TracebackType
from typing import Self

from tests.processes import free_port, serving


class Mortal:
    """A server process on a database; `lives` says how many there were."""

    def __init__(self, database: str) -> None:
        self.database, self.port, self.lives = database, free_port(), 0
        self._life = ExitStack()
        self._process: subprocess.Popen[bytes] | None = None

    @property
    def address(self) -> str:
        """Where it serves, in every life."""
        return f"http://127.0.0.1:{self.port}"

    def kill(self) -> None:
        """End it without a word: SIGKILL, which no program can catch."""
        assert self._process is not None
        self._process.kill()
        self._process.wait(10)

    def start(self) -> None:
        """Let it live, again."""
        self._life.close()
        _, self._process = self._life.enter_context(serving(self.database, self.port))
        self.lives += 1

    def __enter__(self) -> Self:
        self.start()
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self._life.close()

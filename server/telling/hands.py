"""Who does in the background what nobody waits for, and stops when the program stops?"""

import logging
import threading
from collections.abc import Callable
from datetime import timedelta
from typing import Final, Self

from server.store import StoreError

log = logging.getLogger("tundish")

_AFTER_TROUBLE: Final = timedelta(seconds=30)
_GOODBYE: Final = 10.0
"""Seconds to let what is under way end well."""


class Hand:
    """A thread that does one thing again and again, when it is time or when it is called."""

    def __init__(self, name: str, work: Callable[[], timedelta]) -> None:
        """Do `work`, which says how long to rest after it."""
        self._name = name
        self._work = work
        self._called = threading.Event()
        self._thread: threading.Thread | None = None
        self._stop = False
        self._troubled = False

    def __enter__(self) -> Self:
        """Begin."""
        self._stop = False
        # A thread that hangs must not keep the program from stopping: what it does may be cut off anywhere.
        self._thread = threading.Thread(target=self._run, name=f"tundish-{self._name}", daemon=True)
        self._thread.start()
        return self

    def __exit__(self, *error: object) -> None:
        """Stop after what is under way."""
        self._stop = True
        self._called.set()
        if self._thread is not None:
            self._thread.join(_GOODBYE)

    def call(self) -> None:
        """Ask for the work to be done now."""
        self._called.set()

    def _run(self) -> None:
        while True:
            self._called.clear()
            rest = self._once()
            # Whoever stops it sets `_stop` before it calls, so that this look or the call is in time.
            if self._stop:
                return
            self._called.wait(rest.total_seconds())
            if self._stop:
                return

    def _once(self) -> timedelta:
        try:
            rest = self._work()
        except StoreError:
            self._say("the store cannot be reached")
            return _AFTER_TROUBLE
        except Exception:
            # Nothing may end the thread: what waits would wait for ever, and nobody would know.
            log.exception("the work %r failed", self._name)
            return _AFTER_TROUBLE
        self._troubled = False
        return rest

    def _say(self, what: str) -> None:
        if not self._troubled:
            log.error("The work %r must wait: %s.", self._name, what)
        self._troubled = True

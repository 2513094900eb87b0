"""When is what waits to be told tried, by whom, and who hears of it that it cannot be?"""

import logging
import time
from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Final

from server.store.outbox import LEASE, Letter, Outbox
from server.telling.courier import Courier, NotTold

log = logging.getLogger("tundish")

PAUSES: Final = tuple(timedelta(seconds=seconds) for seconds in (20, 60, 180, 600, 1800, 3600))
"""How long is waited after the first, second, … failure; after the last, always as long as then."""

LONG: Final = timedelta(minutes=15)
"""How long something must have waited before the log says so."""

LOOK_AGAIN: Final = timedelta(seconds=30)
"""How often a process looks for what another one left behind."""

_SAFE: Final = LEASE / 2


class TooLate(NotTold):
    """The claim on a letter may have ended before it could be handed over, so it was not."""

    def __init__(self) -> None:
        super().__init__("to be done within half a lease", "that it took longer", "It is tried again by itself.")


class Round:
    """Empties the outbox of one way; each process has its own, and they share the work."""

    def __init__(
        self, outbox: Outbox, courier: Courier, now: Callable[[], datetime], clock: Callable[[], float] = time.monotonic
    ) -> None:
        """Tell what waits in `outbox` by `courier`; `clock` counts seconds and never jumps."""
        self._outbox = outbox
        self._courier = courier
        self._now = now
        self._clock = clock
        self._down = False
        self._reported: set[int] = set()

    def go(self) -> timedelta:
        """Try everything that is due, and say how long it is until something may be due again."""
        while (letter := self._outbox.claim(self._courier.way, self._now())) is not None:
            self._try(letter)
        due = self._outbox.next_due(self._courier.way)
        if due is None:
            return LOOK_AGAIN
        return min(LOOK_AGAIN, max(timedelta(0), due - self._now()))

    def _try(self, letter: Letter) -> None:
        began = self._clock()

        def still() -> None:
            if self._clock() - began > _SAFE.total_seconds():
                raise TooLate

        try:
            self._courier.tell(letter, still)
        except NotTold as why:
            self._failed(letter, str(why))
        else:
            # Between these two lines is the one moment in which a process that dies leaves something told twice.
            self._outbox.sent(letter, self._now())
            self._told(letter)

    def _failed(self, letter: Letter, why: str) -> None:
        now = self._now()
        self._outbox.failed(letter, why, now + PAUSES[min(letter.tries, len(PAUSES)) - 1])
        if now - letter.request.at < LONG or letter.id in self._reported:
            return
        self._reported.add(letter.id)
        if not self._down:
            log.error("A request to call cannot be told by %s: %s `tundish outbox` lists all.", self._courier.way, why)
        self._down = True

    def _told(self, letter: Letter) -> None:
        self._reported.discard(letter.id)
        if self._down:
            log.warning("Requests to call are told by %s again.", self._courier.way)
        self._down = False

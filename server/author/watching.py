"""When is a look at the folders due, and when a proof?"""

import logging
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from threading import Event, Thread
from typing import Final

from server.author.shelf import Shelf

log = logging.getLogger("tundish")

_EVERY: Final = 0.2


@contextmanager
def watched(shelf: Shelf) -> Iterator[None]:
    """Look again whenever a file is saved, and prove each look in the background, until the block is left."""
    stop, due = Event(), Event()
    due.set()
    # A proof cannot be called off, and nobody who stops the program should wait for it.
    threads = [Thread(target=work, args=(shelf, stop, due), daemon=True) for work in (_watch, _prove)]
    for thread in threads:
        thread.start()
    try:
        yield
    finally:
        stop.set()
        due.set()


def _watch(shelf: Shelf, stop: Event, due: Event) -> None:
    # Asking is cheap, misses no save that came before it, and works on drives that report nothing.
    while not stop.wait(_EVERY):
        if shelf.changed():
            _carefully(shelf.look_again)
            due.set()


def _prove(shelf: Shelf, stop: Event, due: Event) -> None:
    while due.wait() and not stop.is_set():
        due.clear()
        _carefully(shelf.prove)


def _carefully(work: Callable[[], None]) -> None:
    """Go on whatever happens: an author's next save mends more than a desk that stands still."""
    try:
        work()
    except Exception:
        log.exception("the author's desk could not look at what was saved")

"""Who prints the parts of a long run, so that more than one core of the machine works?

Typst holds the interpreter while it lays out a card, so threads would only wait for each other: helpers are
processes.
A machine with one core, or one that lets nobody start processes, prints without helpers; the parts are the same.
"""

import os
import signal
from collections import deque
from collections.abc import Callable, Generator, Iterable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from multiprocessing import get_context, parent_process
from threading import Thread
from typing import Final

from kb.card import CardError
from server.parts import Refusal, Work

MOST: Final = 2
"""How many helpers there are at most: each takes up to 150 MB, and two print 500 cards in under five seconds."""

_AHEAD: Final = 2
_ENDED: Final = (
    "Expected the helpers that print cards to go on to the end, but the machine ended one of them; "
    "it may be short of memory. Print the same cards again: parts that were finished are not printed twice."
)
_NOT_STARTED: Final = (
    "Expected room for two helpers that print cards, but the machine starts no more processes; it may be short of "
    "memory. End something else, then print the same cards again: parts that were finished are not printed twice."
)


def cores() -> int:
    """How many cores this process may use."""
    asked = getattr(os, "sched_getaffinity", None)
    return len(asked(0)) if asked else os.cpu_count() or 1


def done_alone(works: Iterable[Work]) -> Generator[tuple[Refusal, ...], None, None]:
    """Do one piece of work after the other; what came of each."""
    for work in works:
        earlier = work.done_earlier()
        yield work.done() if earlier is None else earlier


def started(helpers: int) -> ProcessPoolExecutor:
    """So many helpers, each started as it is needed.

    Raises OSError or ImportError on a machine that has no room or no means for them.
    """
    return ProcessPoolExecutor(helpers, get_context("spawn"), initializer=_begin)


def done_by_helpers(
    works: Iterable[Work], helpers: int, start: Callable[[int], ProcessPoolExecutor] = started
) -> Generator[tuple[Refusal, ...], None, None]:
    """Let helpers do the work; what came of each piece, in order.

    Only a few pieces are taken ahead of the one that is told, so that a long run needs no more memory than a short one.
    Raises CardError if a helper is ended from outside, besides what the work itself raises.
    """
    try:
        pool = start(helpers)
    except (OSError, ImportError, NotImplementedError):
        yield from done_alone(works)
        return
    begun: deque[Future[tuple[Refusal, ...]]] = deque()
    try:
        for work in works:
            begun.append(_begun(pool, work))
            if len(begun) > _AHEAD * helpers:
                yield begun.popleft().result()
        while begun:
            yield begun.popleft().result()
    except BrokenProcessPool:
        raise CardError(_ENDED) from None
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def _begun(pool: ProcessPoolExecutor, work: Work) -> "Future[tuple[Refusal, ...]]":
    earlier = work.done_earlier()
    if earlier is None:
        try:
            with _keystrokes_held():
                return pool.submit(work.done)
        except OSError:
            raise CardError(_NOT_STARTED) from None
    known: Future[tuple[Refusal, ...]] = Future()
    known.set_result(earlier)
    return known


@contextmanager
def _keystrokes_held() -> Iterator[None]:
    """A helper that is started meanwhile never hears the keystroke that stops a run, not even while it loads."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _begin() -> None:
    """A helper leaves it to its parent to stop at a keystroke, and does not outlive it."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    parent = parent_process()
    assert parent is not None, "a helper was started by somebody"
    parent.join()
    os._exit(1)

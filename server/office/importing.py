"""How does somebody see how far an import is, without a script?

The page is sent in pieces: its beginning, a line for every few hundred homes, and the outcome with its end.
A browser shows each piece as it comes.
The work goes on in a thread of its own, so whoever closes the page stops nothing in the middle: all homes come in, or
none.
"""

import logging
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from queue import SimpleQueue
from threading import Thread
from typing import Final

from kb.listing import Listing, Problem
from server.office.list_pages import ListPage, OutcomePart, StepPart
from server.store import StoreUnavailable
from server.store.register import Taken, Tell
from server.web.pages import render

MOST_TOLD: Final = 1_000
"""How many problems a page shows; who has more mends these first."""

UNREACHED: Final = "The register cannot be reached now. Nothing was imported. Try again in a minute."
FAILED: Final = (
    "Something went wrong on our side before the import was confirmed. Check the file again: homes that came in are "
    "told as being there already."
)
_HERE: Final = b"<!-- outcome -->"

log = logging.getLogger("tundish")

Work = Callable[[Tell], Taken]


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of a file: what the register took, or why it did not."""

    taken: Taken = field(default_factory=Taken)
    failed: str = ""


def watched(work: Work) -> Iterator[int | Outcome]:
    """Do the work in a thread of its own: how many lines were gone through so far, each time, then the outcome."""
    heard: SimpleQueue[int | Outcome] = SimpleQueue()

    def run() -> None:
        try:
            heard.put(Outcome(work(heard.put)))
        except StoreUnavailable as error:
            log.error("the store cannot be reached", exc_info=error)
            heard.put(Outcome(failed=UNREACHED))
        except Exception:
            log.exception("a list of homes was not taken")
            heard.put(Outcome(failed=FAILED))

    # Where the program is stopped, a thread that held it up would be killed later and to no other end.
    Thread(target=run, name="import", daemon=True).start()
    done = 0
    while not isinstance(said := heard.get(), Outcome):
        done += said
        yield done
    yield said


def page_as_it_goes(page: ListPage, listing: Listing, work: Work, dry_run: bool) -> Iterator[bytes]:
    """The page in pieces, with the work done in between."""
    begins, _, ends = render(page).partition(_HERE)
    yield begins
    whole = len(listing.rows) * (1 if dry_run else 2)
    for said in watched(work):
        if isinstance(said, Outcome):
            yield render(outcome(listing.problems, said, dry_run))
        elif said < whole:
            yield render(StepPart(said, whole, _step(said, len(listing.rows))))
    yield ends


def outcome(read: tuple[Problem, ...], said: Outcome, dry_run: bool) -> OutcomePart:
    """What is told at the end: how many homes came in, or everything to be mended, by row and column."""
    problems = (*read, *said.taken.problems)
    rows = tuple(
        (str(each.row), each.column, f"Expected {each.expected}, found {each.found}.", each.next_step)
        for each in sorted(problems, key=lambda each: each.row)[:MOST_TOLD]
    )
    if said.failed:
        return OutcomePart("", said.failed, rows)
    if problems:
        return OutcomePart("", _wrong(len(problems)), rows)
    return OutcomePart(_right(said.taken, dry_run), "", ())


def _step(done: int, rows: int) -> str:
    if done > rows:
        return f"{done - rows:,} of {rows:,} homes written"
    return f"{done:,} of {rows:,} homes checked"


def _wrong(many: int) -> str:
    things = "One thing is" if many == 1 else f"{many:,} things are"
    more = f" The first {MOST_TOLD:,} are shown." if many > MOST_TOLD else ""
    return f"{things} to be mended. Nothing was imported.{more}"


def _right(taken: Taken, dry_run: bool) -> str:
    count = f"{taken.new:,} new homes, {taken.changed:,} changed, {taken.same:,} as they were."
    if dry_run:
        return f"Nothing is wrong in this file: {count} Choose it again and press Import."
    return f"Imported: {count}"

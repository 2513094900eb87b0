"""How are the cards of many homes printed, in little memory, and carried on with after an interruption?

Cards are printed a part at a time, by helpers where there are many and the machine has a core for each, and joined
while later parts are still printed.
"""

import os
import shutil
from collections import deque
from collections.abc import Callable, Generator, Iterator, Sequence
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

from kb.card import Size
from kb.home import Home
from server.cards import gathered_for
from server.helpers import MOST, cores, done_alone, done_by_helpers
from server.parts import Part, Refusal, Work, clear_after
from server.site import Site

PART: Final = 20
"""How many cards are printed in one go: a whole number of sheets in every size, and about 30 MB."""

MOST_IN_ONE: Final = 500
"""How many cards one PDF may hold: joining keeps the tags of all of them in memory, 0.3 MB a card."""

FEWEST_FOR_HELPERS: Final = 8
"""How many parts are worth the half second that it takes until helpers have started."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """Whose cards are wanted, in which size, and whether on sheets of A4."""

    homes: Sequence[Home]
    size: Size
    sheets: bool


def too_many(wanted: Wanted, to: Path) -> str | None:
    """Why so many cards cannot come in one PDF, and what to do, or None if they can or need not."""
    if not _is_one_file(to) or len(wanted.homes) <= MOST_IN_ONE:
        return None
    return (
        f"Expected at most {MOST_IN_ONE} cards for one PDF, found {len(wanted.homes)}. "
        f"Name a folder, such as {to.with_suffix('')}; it gets numbered ones."
    )


def print_cards(
    site: Site, wanted: Wanted, to: Path, tell: Callable[[int], object], helpers: int | None = None
) -> tuple[Refusal, ...]:
    """Write the cards into one PDF, or into numbered ones if `to` is no name of a PDF; who was refused is returned.

    `tell` hears how many homes more are done.
    There are as many helpers as the machine has cores for, unless their number is given.
    Raises CardError, and OSError where nothing can be written.
    """
    one_file = _is_one_file(to)
    run = _Run(site, wanted, to.with_name(f"{to.name}.parts") if one_file else to, tell)
    run.folder.mkdir(parents=True, exist_ok=True)
    with closing(run.printed(run.helpers if helpers is None else helpers)) as printed:
        if one_file:
            _put_together(printed, to, len(run.parts))
        else:
            deque(printed, maxlen=0)
    clear_after(run.folder, len(run.parts))
    if one_file:
        shutil.rmtree(run.folder)
    return tuple(run.refused)


def _is_one_file(to: Path) -> bool:
    return to.suffix.lower() == ".pdf"


@dataclass(frozen=True, slots=True)
class _Run:
    site: Site
    wanted: Wanted
    folder: Path
    tell: Callable[[int], object]
    refused: list[Refusal] = field(default_factory=list)

    @property
    def parts(self) -> range:
        """The place of the first home of each part."""
        return range(0, len(self.wanted.homes), PART)

    @property
    def helpers(self) -> int:
        return min(cores(), MOST) if len(self.parts) >= FEWEST_FOR_HELPERS else 1

    def printed(self, helpers: int) -> Generator[Path, None, None]:
        """The PDF of each part that has one, in order, as soon as it is there."""
        works = self._works()
        with closing(done_by_helpers(works, helpers) if helpers > 1 else done_alone(works)) as done:
            for number, (first, refused) in enumerate(zip(self.parts, done, strict=True), 1):
                self.refused.extend(refused)
                self.tell(len(self.wanted.homes[first : first + PART]))
                pdf = Part(self.folder, number).pdf
                if pdf.exists():
                    yield pdf

    def _works(self) -> Iterator[Work]:
        """The parts to print, gathered one at a time."""
        for number, first in enumerate(self.parts, 1):
            homes = self.wanted.homes[first : first + PART]
            cards = [gathered_for(self.site, home, self.wanted.size) for home in homes]
            yield Work(Part(self.folder, number), [home.key for home in homes], cards, self.wanted.sheets)


def _put_together(parts: Iterator[Path], to: Path, count: int) -> None:
    if count == 1:
        for only in parts:
            os.replace(only, to)
        return
    from server.joining import joined

    unfinished = to.with_name(f"{to.name}.unfinished")
    if joined(parts, unfinished):
        os.replace(unfinished, to)

"""What stands in the author's folders now, and what is wrong with it?"""

import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import datetime
from functools import lru_cache
from pathlib import Path
from threading import Lock
from typing import Final

from kb import rules
from kb.findings import Finding, Place, in_order
from kb.library import Library, UnusableFolder, build, load
from kb.notation import read_article
from kb.proof import Proof, prove
from kb.ranges import Range, forbidden_words, load_ranges, unknown_categories

_REMEMBERED: Final = 1024


@dataclass(frozen=True, slots=True)
class Look:
    """One look at the folders: what was read when, what the rules found, and the proof if it is done.

    `version` changes with everything that a page may show.
    `stamps` are the name, time and size of each file as they were just before it was read.
    """

    version: int
    at: datetime
    seconds: float
    library: Library
    ranges: Mapping[str, Range]
    in_articles: tuple[Finding, ...]
    in_ranges: tuple[Finding, ...]
    stamps: frozenset[tuple[str, int, int]]
    proof: Proof | None = None

    def findings(self, file: str) -> tuple[Finding, ...]:
        """What the rules and the proof find in an article's file."""
        proved = self.proof.findings if self.proof else ()
        return in_order(finding for finding in (*self.in_articles, *proved) if finding.place.file == file)

    @property
    def files(self) -> tuple[str, ...]:
        """Every file that an article was read from or that something is wrong with, as far as they are known."""
        read = {article.file for article in self.library.articles.values()}
        return tuple(sorted(read | {finding.place.file for finding in self.in_articles}))


class Shelf:
    """The folders of articles and ranges, looked at again and again.

    A look is a value and is swapped as a whole, so that a page never mixes two of them.
    """

    def __init__(
        self,
        articles: Path,
        ranges: Path,
        now: Callable[[], datetime] = datetime.now,
        prover: Callable[[Library], Proof] = prove,
    ) -> None:
        """Take the first look; raises UnusableFolder if there is no folder of articles."""
        self.articles = articles
        self.ranges = ranges
        self._now = now
        self._prover = prover
        self._swap = Lock()
        self._read = lru_cache(_REMEMBERED)(read_article)
        load(articles, self._read)
        self.look = self._take(time.time_ns() // 1_000_000)

    def changed(self) -> bool:
        """Whether a file was saved, begun or taken away since the latest look."""
        return self.look.stamps != self._stamps()

    def look_again(self) -> None:
        """Read what changed and hold everything to the rules; the proof is older than that, and so it is dropped."""
        with self._swap:
            self.look = self._take(self.look.version + 1)

    def prove(self) -> None:
        """Prove what must never happen over all walks of the latest look, unless it is proved already."""
        look = self.look
        if look.proof is not None:
            return
        proof = self._prover(look.library)
        with self._swap:
            if self.look is look:
                self.look = replace(look, version=look.version + 1, proof=proof)

    def _take(self, version: int) -> Look:
        began = time.perf_counter()
        at = self._now()
        stamps = self._stamps()
        try:
            library = load(self.articles, self._read)
        except UnusableFolder as error:
            library = build((), (), (Finding(Place(self.articles.name, 1), "unreadable", str(error), ""),))
        ranges, in_ranges = load_ranges(self.ranges)
        in_articles = rules.check(library, at.date()) if library.articles else library.findings
        in_ranges += unknown_categories(ranges.values(), library.articles) + forbidden_words(ranges.values())
        seconds = time.perf_counter() - began
        return Look(version, at, seconds, library, ranges, in_articles, in_order(in_ranges), stamps)

    def _stamps(self) -> frozenset[tuple[str, int, int]]:
        return frozenset(_stamps(self.articles, "*.md", "regions/*.toml")) | frozenset(_stamps(self.ranges, "*.md"))


def _stamps(folder: Path, *patterns: str) -> Iterator[tuple[str, int, int]]:
    for pattern in patterns:
        for path in folder.glob(pattern):
            # An editor may have taken the file away in this very moment, to put a new one in its place.
            with suppress(OSError):
                found = path.stat()
                yield str(path), found.st_mtime_ns, found.st_size

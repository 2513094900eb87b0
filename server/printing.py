"""How are the cards of many homes printed, in little memory, and carried on with after an interruption?

Cards are printed a part at a time.
A part is a PDF and, written after it, a note of what it was made from and what was refused; a part whose note is
there and says what is wanted now is never printed again.
"""

import json
import os
import shutil
from collections.abc import Callable, Iterator, Sequence
from dataclasses import asdict, dataclass
from functools import cache
from hashlib import sha256
from itertools import islice
from pathlib import Path
from typing import Final

from kb.card import Card, Refused, Size, fingerprint, together
from kb.card.layout import TEMPLATE
from kb.home import Home
from server.cards import gathered_for
from server.site import Site

PART: Final = 40
"""How many cards are printed in one go: a whole number of sheets in every size, and about 40 MB."""

MOST_IN_ONE: Final = 500
"""How many cards one PDF may hold: joining keeps the tags of all of them in memory, over half a megabyte a card."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """Whose cards are wanted, in which size, and whether on sheets of A4."""

    homes: Sequence[Home]
    size: Size
    sheets: bool


@dataclass(frozen=True, slots=True)
class Refusal:
    """A home that has no card, and why: each reason names the field."""

    key: str
    reasons: tuple[str, ...]


def too_many(wanted: Wanted, to: Path) -> str | None:
    """Why so many cards cannot come in one PDF, and what to do, or None if they can or need not."""
    if not _is_one_file(to) or len(wanted.homes) <= MOST_IN_ONE:
        return None
    return (
        f"Expected at most {MOST_IN_ONE} cards for one PDF, found {len(wanted.homes)}. "
        f"Name a folder, such as {to.with_suffix('')}; it gets numbered ones."
    )


def print_cards(site: Site, wanted: Wanted, to: Path, tell: Callable[[int], object]) -> tuple[Refusal, ...]:
    """Write the cards into one PDF, or into numbered ones if `to` is no name of a PDF; who was refused is returned.

    `tell` hears how many homes more are done.
    Raises CardError, and OSError where nothing can be written.
    """
    one_file = _is_one_file(to)
    folder = to.with_name(f"{to.name}.parts") if one_file else to
    folder.mkdir(parents=True, exist_ok=True)
    parts = [_Part(folder, number) for number, _ in enumerate(range(0, len(wanted.homes), PART), 1)]
    refused: list[Refusal] = []
    for part, homes in zip(parts, _by_part(wanted.homes), strict=True):
        refused += part.made(site, homes, wanted)
        tell(len(homes))
    _clear_after(folder, len(parts))
    if one_file:
        _join([part.pdf for part in parts if part.pdf.exists()], to)
        shutil.rmtree(folder)
    return tuple(refused)


def _is_one_file(to: Path) -> bool:
    return to.suffix.lower() == ".pdf"


def _by_part(homes: Sequence[Home]) -> Iterator[Sequence[Home]]:
    rest = iter(homes)
    while part := tuple(islice(rest, PART)):
        yield part


@dataclass(frozen=True, slots=True)
class _Part:
    folder: Path
    number: int

    @property
    def pdf(self) -> Path:
        return self.folder / f"cards-{self.number:03d}.pdf"

    @property
    def note(self) -> Path:
        return self.folder / f".cards-{self.number:03d}.json"

    def made(self, site: Site, homes: Sequence[Home], wanted: Wanted) -> tuple[Refusal, ...]:
        """Print this part unless it is there already; who was refused."""
        cards = [gathered_for(site, home, wanted.size) for home in homes]
        source = _source(homes, cards, wanted.sheets)
        there = self._refused_earlier(source)
        return self._print(homes, cards, wanted.sheets, source) if there is None else there

    def _refused_earlier(self, source: str) -> tuple[Refusal, ...] | None:
        try:
            note = json.loads(self.note.read_text(encoding="utf-8"))
            whole = note["source"] == source and self.pdf.exists() is note["printed"]
            return tuple(Refusal(each["key"], tuple(each["reasons"])) for each in note["refused"]) if whole else None
        except (OSError, ValueError, KeyError, TypeError):
            return None

    def _print(
        self, homes: Sequence[Home], cards: Sequence[Card | Refused], sheets: bool, source: str
    ) -> tuple[Refusal, ...]:
        self.note.unlink(missing_ok=True)
        batch = together(cards, sheets)
        refused = tuple(
            Refusal(homes[place].key, tuple(map(str, each.reasons))) for place, each in batch.refused.items()
        )
        if batch.pdf is None:
            self.pdf.unlink(missing_ok=True)
        else:
            _write_whole(self.pdf, batch.pdf)
        note = {"source": source, "printed": batch.pdf is not None, "refused": [asdict(each) for each in refused]}
        _write_whole(self.note, json.dumps(note).encode())
        return refused


def _source(homes: Sequence[Home], cards: Sequence[Card | Refused], sheets: bool) -> str:
    """What a part is made from, in short: the layout, the homes, and all that stands on their cards."""
    found = [
        fingerprint(card) if isinstance(card, Card) else [str(reason) for reason in card.reasons] for card in cards
    ]
    written = json.dumps([_layout(), sheets, [home.key for home in homes], found])
    return sha256(written.encode()).hexdigest()


@cache
def _layout() -> str:
    templates = sorted(TEMPLATE.parent.glob("*.typ"))
    return sha256(b"".join(template.read_bytes() for template in templates)).hexdigest()


def _write_whole(path: Path, content: bytes) -> None:
    """Write a file so that it is there whole or not at all."""
    unfinished = path.with_name(f"{path.name}.unfinished")
    unfinished.write_bytes(content)
    os.replace(unfinished, path)


def _clear_after(folder: Path, last: int) -> None:
    """Take away what an earlier and longer run left behind, so that the folder holds what was asked for."""
    for note in folder.glob(".cards-*.json"):
        number = note.stem.rpartition("-")[2]
        if number.isdigit() and int(number) > last:
            part = _Part(folder, int(number))
            part.pdf.unlink(missing_ok=True)
            note.unlink()


def _join(parts: Sequence[Path], to: Path) -> None:
    if not parts:
        return
    if len(parts) == 1:
        os.replace(parts[0], to)
        return
    from server.joining import joined

    unfinished = to.with_name(f"{to.name}.unfinished")
    joined(parts, unfinished)
    os.replace(unfinished, to)

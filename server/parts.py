"""What is one part of a long print run, and is it there already?

A part is a PDF and, written after it, a note of what it was made from and what was refused; a part whose note is
there and says what is wanted now is never printed again.
"""

import json
import os
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from functools import cache
from hashlib import sha256
from pathlib import Path

from kb.card import Card, Refused, fingerprint, together
from kb.card.layout import TEMPLATE


@dataclass(frozen=True, slots=True)
class Refusal:
    """A home that has no card, and why: each reason names the field."""

    key: str
    reasons: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Part:
    """Where a part lies: its number in a folder."""

    folder: Path
    number: int

    @property
    def pdf(self) -> Path:
        """Its cards; not there where every home was refused."""
        return self.folder / f"cards-{self.number:03d}.pdf"

    @property
    def note(self) -> Path:
        """What it was made from, and who was refused."""
        return self.folder / f".cards-{self.number:03d}.json"


@dataclass(frozen=True, slots=True)
class Work:
    """A part to be printed: the keys of its homes, and their cards as they were gathered."""

    part: Part
    keys: Sequence[str]
    cards: Sequence[Card | Refused]
    sheets: bool

    def done_earlier(self) -> tuple[Refusal, ...] | None:
        """Who was refused when this very part was printed before; None if it was not."""
        try:
            note = json.loads(self.part.note.read_text(encoding="utf-8"))
            whole = note["source"] == self._source() and self.part.pdf.exists() is note["printed"]
            return tuple(Refusal(each["key"], tuple(each["reasons"])) for each in note["refused"]) if whole else None
        except (OSError, ValueError, KeyError, TypeError):
            return None

    def done(self) -> tuple[Refusal, ...]:
        """Print the part; who was refused.

        Raises CardError, and OSError where nothing can be written.
        """
        self.part.note.unlink(missing_ok=True)
        batch = together(self.cards, self.sheets)
        refused = tuple(
            Refusal(self.keys[place], tuple(map(str, each.reasons))) for place, each in batch.refused.items()
        )
        if batch.pdf is None:
            self.part.pdf.unlink(missing_ok=True)
        else:
            _write_whole(self.part.pdf, batch.pdf)
        note = {"source": self._source(), "printed": batch.pdf is not None, "refused": [asdict(r) for r in refused]}
        _write_whole(self.part.note, json.dumps(note).encode())
        return refused

    def _source(self) -> str:
        """What the part is made from, in short: the layout, the homes, and all that stands on their cards."""
        found = [
            fingerprint(card) if isinstance(card, Card) else [str(reason) for reason in card.reasons]
            for card in self.cards
        ]
        return sha256(json.dumps([_layout(), self.sheets, list(self.keys), found]).encode()).hexdigest()


def clear_after(folder: Path, last: int) -> None:
    """Take away what an earlier and longer run left behind, so that the folder holds what was asked for."""
    for note in folder.glob(".cards-*.json"):
        number = note.stem.rpartition("-")[2]
        if number.isdigit() and int(number) > last:
            Part(folder, int(number)).pdf.unlink(missing_ok=True)
            note.unlink()


@cache
def _layout() -> str:
    templates = sorted(TEMPLATE.parent.glob("*.typ"))
    return sha256(b"".join(template.read_bytes() for template in templates)).hexdigest()


def _write_whole(path: Path, content: bytes) -> None:
    """Write a file so that it is there whole or not at all."""
    unfinished = path.with_name(f"{path.name}.unfinished")
    unfinished.write_bytes(content)
    os.replace(unfinished, path)

"""What is kept of a handover: everything that was ever written, by whom and when, and who signed it?"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Final

ENTRY_ID: Final = re.compile(r"[A-Za-z0-9_-]{8,60}")
"""What an entry's id looks like; whoever writes the entry makes it, so that one sent twice is known."""

LONGEST_TEXT: Final = 2000


@dataclass(frozen=True, slots=True)
class Entry:
    """One field as somebody wrote it; `sequence` rises with everything written, wherever it was written."""

    id: str
    sequence: int
    field: str
    text: str
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class Signature:
    """The name that was typed under a record, whose account it was, when, and the fingerprint of what was signed."""

    name: str
    by: str
    at: datetime
    fingerprint: str = ""


@dataclass(frozen=True, slots=True)
class Addition:
    """Words written after the signing; the fingerprint also covers all that came before."""

    id: str
    words: str
    by: str
    at: datetime
    fingerprint: str = ""


@dataclass(frozen=True, slots=True)
class Record:
    """One handover, of the home that a key opens or will open; entries stand in the order they were written.

    `first_key` is the key it was begun for, empty while the home still has it.
    """

    id: str
    key: str
    begun: datetime
    by: str
    entries: tuple[Entry, ...] = ()
    signature: Signature | None = None
    additions: tuple[Addition, ...] = ()
    first_key: str = ""

    @property
    def clock(self) -> int:
        """The highest sequence so far."""
        return max((entry.sequence for entry in self.entries), default=0)


def texts(entries: Iterable[Entry]) -> Mapping[str, str]:
    """What stands in each field: its latest entry, an emptied field being empty."""
    return {entry.field: entry.text for entry in entries}

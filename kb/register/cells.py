"""What do the words mean that somebody typed into a field or a cell about a home?

A reading that fails leaves a `Mistake` at its field, so that everything wrong is told at once.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Final, TypeVar

from kb.register.address import read_postcode
from kb.register.mistakes import Mistake
from kb.register.people import read_phone

_ISO: Final = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})")
_DAY_FIRST: Final = re.compile(r"(\d{1,2})[/.](\d{1,2})[/.](\d{4})")
_FIGURE: Final = re.compile(r"\d{1,3}(?:[.,]\d{1,3})?")
_NUMBERED: Final = re.compile(r"\[(\d+)\]")
_EARLIEST, _LATEST = 1900, 2100
_Read = TypeVar("_Read")


def read_day(written: str) -> date | Mistake:
    """A day as 2026-11-25, or with the day first as 25/11/2026 or 25.11.2026."""
    iso, day_first = _ISO.fullmatch(written), _DAY_FIRST.fullmatch(written)
    parts = iso.groups() if iso else day_first.groups()[::-1] if day_first else ()
    try:
        day = date(*map(int, parts))
    except (TypeError, ValueError):
        day = date.min
    if not _EARLIEST <= day.year < _LATEST:
        return Mistake("", "a day such as 2026-11-25 or 25/11/2026", repr(written), "Write it in one of these ways.")
    return day


@dataclass(frozen=True, slots=True)
class Cells:
    """What was written, by the paths of its fields, seen from one place in the record.

    A field that is not there at all was not asked for, and stays as it was; one with nothing in it was emptied.
    """

    written: Mapping[str, str]
    region: str
    mistakes: list[Mistake] = field(default_factory=list)
    at: str = ""

    def within(self, name: str) -> "Cells":
        """The same, seen from a part."""
        path = self.path(name)
        inside = {each: words for each, words in self.written.items() if each.startswith((f"{path}.", f"{path}["))}
        return replace(self, at=path, written=inside)

    def path(self, name: str) -> str:
        """A field's whole path."""
        return f"{self.at}.{name}" if self.at else name

    def given(self, name: str) -> bool:
        """Whether a single field was written or emptied."""
        return self.path(name) in self.written

    def has(self, name: str) -> bool:
        """Whether a field was written or emptied, or any field of a part."""
        path = self.path(name)
        return path in self.written or any(each.startswith((f"{path}.", f"{path}[")) for each in self.written)

    def empty(self) -> bool:
        """Whether nothing is written anywhere in it."""
        return not any(words.strip() for words in self.written.values())

    def numbers(self, name: str) -> tuple[int, ...]:
        """The numbers of a list's items, in order, those with nothing in them too."""
        path = f"{self.path(name)}["
        found = {_NUMBERED.match(each, len(path) - 1) for each in self.written if each.startswith(path)}
        return tuple(sorted({int(each[1]) for each in found if each}))

    def items(self, name: str) -> Iterator[tuple[int, "Cells"]]:
        """A list's items with something in them."""
        for number in self.numbers(name):
            item = self.within(f"{name}[{number}]")
            if not item.empty():
                yield number, item

    def words(self, name: str, otherwise: str = "") -> str:
        """Words without spaces around them."""
        written = self.written.get(self.path(name))
        return otherwise if written is None else written.strip()

    def day(self, name: str, otherwise: date | None = None) -> date | None:
        """A day, or None for nothing."""
        words = self.words(name)
        if not words:
            return None if self.given(name) else otherwise
        return self._kept(name, read_day(words), otherwise)

    def choice(self, name: str, values: Mapping[str, str], otherwise: str | None = None) -> str | None:
        """One of a closed list, by its short name or its plain words; None for nothing."""
        words = self.words(name).casefold()
        if not words:
            return None if self.given(name) else otherwise
        for value, plain in values.items():
            if words in (value.casefold(), plain.casefold(), value.replace("-", " ").casefold()):
                return value
        expected = f"one of {', '.join(values)}"
        return self._kept(name, Mistake("", expected, repr(self.words(name)), "Choose from these."), otherwise)

    def figure(self, name: str, otherwise: float) -> float:
        """A figure such as 1.2; what it was for nothing."""
        words = self.words(name)
        if not words:
            return otherwise
        if not _FIGURE.fullmatch(words):
            return self._kept(name, Mistake("", "a figure such as 1.2", repr(words), "Write it in bar."), otherwise)
        return float(words.replace(",", "."))

    def count(self, name: str) -> int | None:
        """A whole number from 0 to 9, or None for nothing."""
        words = self.words(name)
        if not words:
            return None
        if not (words.isascii() and words.isdigit() and len(words) == 1):
            return self._kept(name, Mistake("", "a number from 0 to 9", repr(words), "Write how many times."), None)
        return int(words)

    def phone(self, name: str) -> str | None:
        """A phone number in E.164, or None for nothing."""
        words = self.words(name)
        return self._kept(name, read_phone(words, self.region), None) if words else None

    def postcode(self, name: str, otherwise: str = "") -> str:
        """A postcode as its country writes it."""
        words = self.words(name, otherwise)
        return self._kept(name, read_postcode(words, self.region), words) if words else ""

    def wrong(self, name: str, expected: str, found: str, next_step: str) -> None:
        """Leave a mistake at a field."""
        self.mistakes.append(Mistake(self.path(name), expected, found, next_step))

    def _kept(self, name: str, read: _Read | Mistake, otherwise: _Read) -> _Read:
        if isinstance(read, Mistake):
            self.mistakes.append(replace(read, field=self.path(name)))
            return otherwise
        return read

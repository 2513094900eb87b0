"""What is wrong with something an author wrote, told so that they can mend it."""

from collections.abc import Iterable
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """Where a thing stands: a file named from the library's folder, and a line counted from 1."""

    file: str
    line: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}"


@dataclass(frozen=True, slots=True, order=True)
class Finding:
    """One mistake of an author: where, which rule, what was found, what to do about it.

    A finding is a result, never an exception.
    `holds_back` is false for findings that are no reason to stop serving what is otherwise sound.
    """

    place: Place
    rule: str
    found: str
    remedy: str
    holds_back: bool = field(default=True, compare=False)

    def __str__(self) -> str:
        return f"{self.place}: {self.rule}: {self.found} {self.remedy}"


def in_order(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Every finding once, by file and line."""
    return tuple(sorted(set(findings)))

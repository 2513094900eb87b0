"""The words of an article as a small tree of our own, so that a page, a card and a terminal can each set them."""

from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias

from kb.findings import Place


@dataclass(frozen=True, slots=True, order=True)
class Target:
    """Where a link leads: an article's id and an anchor in it; an empty anchor means its first step."""

    article: str
    anchor: str = ""

    def __str__(self) -> str:
        return f"{self.article}.md#{self.anchor}" if self.anchor else f"{self.article}.md"


@dataclass(frozen=True, slots=True)
class Span:
    """A run of words in one style, perhaps a link to somewhere in the library."""

    text: str
    strong: bool = False
    target: Target | None = None


Line: TypeAlias = tuple[Span, ...]


class Shape(StrEnum):
    """How a block of prose is set."""

    PARAGRAPH = "paragraph"
    BULLETS = "bullets"
    NUMBERS = "numbers"
    CAUTION = "caution"


@dataclass(frozen=True, slots=True)
class Block:
    """A paragraph, a list or a caution, and where it stands."""

    shape: Shape
    lines: tuple[Line, ...]
    place: Place

    @property
    def text(self) -> str:
        """The words alone, a line for each line."""
        return "\n".join(words(line) for line in self.lines)


def words(line: Line) -> str:
    """The words of a line without style or links."""
    return "".join(span.text for span in line)

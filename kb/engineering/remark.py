"""What is said about figures of a handover record: in order, a question to the engineer, or a danger?"""

from dataclasses import dataclass
from enum import StrEnum
from typing import Final

MAKE_SAFE: Final = (
    "Stop, make it safe and follow the unsafe-situations procedure. "
    "Only if a figure was written wrongly, correct it here."
)
"""What every danger ends with."""


class Level(StrEnum):
    """How a remark is meant: nothing to ask, a question that the engineer answers, or a danger."""

    FINE = "fine"
    QUESTION = "question"
    DANGER = "danger"


@dataclass(frozen=True, slots=True)
class Remark:
    """What one check says: its name, which figures it looked at, how it is meant, plain sentences, and the working.

    No figure is ever changed by it.
    """

    check: str
    figures: tuple[str, ...]
    level: Level
    text: str
    working: tuple[str, ...] = ()


def fine(check: str, figures: tuple[str, ...], text: str, *working: str) -> Remark:
    """A remark that shows what was worked out and is in order."""
    return Remark(check, figures, Level.FINE, text, working)


def question(check: str, figures: tuple[str, ...], text: str, *working: str) -> Remark:
    """A question to the engineer, who alone says whether the figure is right."""
    return Remark(check, figures, Level.QUESTION, text, working)


def danger(check: str, figures: tuple[str, ...], text: str, *working: str, slip: str | None = None) -> Remark:
    """A danger, which always says to stop, make safe and follow the procedure; a guess at a slip comes after that."""
    return Remark(check, figures, Level.DANGER, " ".join(filter(None, (text, MAKE_SAFE, slip))), working)

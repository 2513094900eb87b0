"""What is a way to tell the firm, and what can go wrong on it?"""

from collections.abc import Callable
from typing import Protocol, TypeAlias

from server.store.outbox import Letter

Still: TypeAlias = Callable[[], None]
"""Raises NotTold where so much time has gone by that somebody else may be telling the same by now."""


class NotTold(Exception):
    """A letter could not be handed over; the message says what was expected, what was found, and what to do."""

    def __init__(self, expected: str, found: str, next_step: str) -> None:
        """Say all three; none of them may hold anything about the household."""
        super().__init__(f"Expected {expected}, found {found}. {next_step}")


class Courier(Protocol):
    """One way to tell the firm."""

    @property
    def way(self) -> str:
        """The name of the way, as it stands in the outbox."""
        ...

    def tell(self, letter: Letter, still: Still) -> None:
        """Hand a letter over, calling `still` just before it cannot be taken back; raises NotTold."""
        ...

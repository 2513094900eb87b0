"""What is wrong in something that somebody wrote about a home, and in which field?"""

from dataclasses import dataclass, replace
from typing import Final


@dataclass(frozen=True, slots=True)
class Mistake:
    """One thing to mend: its field as a path such as `people[0].phones[1]`, and what to do about it."""

    field: str
    expected: str
    found: str
    next_step: str

    def __str__(self) -> str:
        """The whole of it in three sentences."""
        return f"{self.field}: Expected {self.expected}, found {self.found}. {self.next_step}"

    def within(self, whole: str) -> "Mistake":
        """The same mistake, seen from what its field is part of."""
        return replace(self, field=f"{whole}.{self.field}" if self.field else whole)


MEANWHILE: Final = Mistake(
    "",
    "the home as it was when you read it",
    "that somebody changed it meanwhile",
    "Read it again, and write yours over what it is now.",
)
"""What the second of two is told who change one home."""

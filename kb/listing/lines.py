"""What is a line of a table of homes, and what can be wrong with it?"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from kb.listing.columns import name_of
from kb.register import Built, Mistake, Record, build


@dataclass(frozen=True, slots=True)
class Problem:
    """One cell to mend: its row as a spreadsheet counts, its column, and what to do about it."""

    row: int
    column: str
    expected: str
    found: str
    next_step: str

    def __str__(self) -> str:
        """The whole of it."""
        where = f"Row {self.row}, {self.column}" if self.column else f"Row {self.row}"
        return f"{where}: Expected {self.expected}, found {self.found}. {self.next_step}"


@dataclass(frozen=True, slots=True)
class Row:
    """A home as it stands in a table: the row's number, its key or nothing, and its fields by their paths.

    `version` says how the home was when the table was written, empty where the table does not say.
    """

    number: int
    key: str
    written: Mapping[str, str]
    version: str = ""

    def over(self, before: Record, region: str, today: date) -> Built:
        """What the home becomes, its mistakes named by their fields."""
        return build(self.written, before, region, today)

    def problem(self, mistake: Mistake) -> Problem:
        """A mistake in this row, named by its column."""
        return Problem(self.number, name_of(mistake.field), mistake.expected, mistake.found, mistake.next_step)


@dataclass(frozen=True, slots=True)
class Listing:
    """A table as it was read: its rows, and everything that was wrong with its shape."""

    rows: tuple[Row, ...]
    problems: tuple[Problem, ...]

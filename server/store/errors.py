"""What can go wrong between this program and its database.

`StoreError` is the family.
`WrongDatabase` is told once, at the start, to whoever runs the program, and says what to do.
`StoreUnavailable`, and `DamagedHome` as one kind of it, meet a request; their messages are for the log, never for
a page.
"""


class StoreError(Exception):
    """The store could not do what was asked of it."""


class WrongDatabase(StoreError):
    """The database is missing, out of reach, of another version, or not this program's at all."""

    def __init__(self, expected: str, found: str, next_step: str) -> None:
        """Say what was expected, what was found and what to do."""
        super().__init__(f"Expected {expected}, found {found}. {next_step}")


class StoreUnavailable(StoreError):
    """What was there when the program started cannot be had now."""


class DamagedHome(StoreUnavailable):
    """A home's row holds what no version of this program would have written."""

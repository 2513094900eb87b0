"""How is a cell kept from being taken for a formula by the spreadsheet that opens it?

A spreadsheet runs what begins with one of a few signs; an apostrophe before it makes it words.
The signs are those that the Open Worldwide Application Security Project names under CSV injection (from memory).
"""

from typing import Final

_SIGNS: Final = ("=", "+", "-", "@", "\t", "\r")
_APOSTROPHE: Final = "'"


def guarded(words: str) -> str:
    """Words as they may stand in a cell."""
    return _APOSTROPHE + words if words.lstrip(_APOSTROPHE).startswith(_SIGNS) else words


def unguarded(cell: str) -> str:
    """The words of a cell, without the apostrophe that `guarded` put there."""
    return cell[1:] if cell.startswith(_APOSTROPHE) and cell.lstrip(_APOSTROPHE).startswith(_SIGNS) else cell

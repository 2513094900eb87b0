"""What does the office ask of whoever prints cards?"""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final, cast

from kb.card import Size
from kb.card.sizes import FORMATS
from kb.home import Home
from server.cards import fingerprint_of
from server.printing import MOST_IN_ONE, Wanted, print_cards
from server.site import Site

SIZES: Final = tuple(FORMATS)
"""Every size of card."""


@dataclass(frozen=True, slots=True)
class Press:
    """Prints the cards of a site's homes; `most` is how many come in one PDF, `sizes` which there are."""

    site: Site
    most: int = MOST_IN_ONE
    sizes: tuple[str, ...] = SIZES

    def fingerprint(self, home: Home, size: str) -> str | None:
        """What a card would be made from now, in 64 characters; None where it may not be printed."""
        return fingerprint_of(self.site, home, cast("Size", size))

    def printed(self, homes: Sequence[Home], size: str, sheets: bool) -> bytes | None:
        """The cards of homes in one PDF, on sheets of A4 if asked, or none; made in parts, in bounded memory."""
        with TemporaryDirectory(prefix="tundish-") as folder:
            to = Path(folder) / "cards.pdf"
            print_cards(self.site, Wanted(homes, cast("Size", size), sheets), to, _unwatched)
            return to.read_bytes() if to.exists() else None


def press_for(site: Site) -> Press:
    """The press of a site."""
    return Press(site)


def _unwatched(_done: int) -> None:
    """Nobody watches a page being made."""

"""What does the office ask of whoever prints cards?"""

import json
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from hashlib import sha256
from typing import Protocol

from kb.card import Card, pdf
from kb.home import Home
from server.cards import card_for
from server.site import Site


@dataclass(frozen=True, slots=True)
class Printout:
    """A PDF of the cards that could be printed, none if there is not one, and why others could not, by key."""

    pdf: bytes | None
    refused: Mapping[str, tuple[str, ...]]


class Press(Protocol):
    """Prints the cards of homes."""

    @property
    def most(self) -> int:
        """How many cards come in one PDF."""
        ...

    @property
    def sizes(self) -> tuple[str, ...]:
        """The sizes that there are."""
        ...

    def fingerprint(self, home: Home, size: str) -> str | None:
        """What a card would be made from now, in 64 characters; None where it may not be printed."""
        ...

    def printed(self, homes: Sequence[Home], size: str, sheets: bool) -> Printout:
        """The cards of homes in one PDF, on sheets of A4 if asked."""
        ...


@dataclass(frozen=True, slots=True)
class OneByOne:
    """Prints a single card of A6, with what is here until cards are printed in number."""

    site: Site
    most: int = 1
    sizes: tuple[str, ...] = ("a6",)

    def fingerprint(self, home: Home, size: str) -> str | None:
        """What the card would be made from now."""
        card = card_for(self.site, home)
        return sha256(json.dumps(asdict(card), default=str).encode()).hexdigest() if isinstance(card, Card) else None

    def printed(self, homes: Sequence[Home], size: str, sheets: bool) -> Printout:
        """The card of the first home."""
        for home in homes[:1]:
            card = card_for(self.site, home)
            if isinstance(card, Card):
                return Printout(pdf(card), {})
            return Printout(None, {home.key: tuple(str(reason) for reason in card.reasons)})
        return Printout(None, {})


def press_for(site: Site) -> Press:
    """The press of a site."""
    return OneByOne(site)

"""The card of a home of this site, or why there is none; and which cards are no longer as they were printed."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import cast

from kb.card import A6_PLAIN, Card, Reason, Refused, Size, Style, card_of, fingerprint, gathered
from kb.card.sizes import FORMATS
from kb.home import Home
from server.site import Site
from server.store.register import Printed


@dataclass(frozen=True, slots=True)
class Changed:
    """A home whose card would be another now: the one that was printed, and the fingerprint of the one of now.

    `now` is None where it may not be printed.
    """

    home: Home
    printed: Printed
    now: str | None


def changed_cards(site: Site) -> Iterator[Changed]:
    """Every home whose last card of a size no longer says what is known, or has a key that was withdrawn."""
    for home, printed in site.store.register.cards():
        if printed.size in FORMATS:
            now = fingerprint_of(site, home, cast("Size", printed.size))
            if now != printed.fingerprint or printed.key != home.key:
                yield Changed(home, printed, now)


def fingerprint_of(site: Site, home: Home, size: Size) -> str | None:
    """What a card would be made from now, in 64 characters; None where it may not be printed."""
    card = gathered_for(site, home, size)
    return fingerprint(card) if isinstance(card, Card) else None


def card_for(site: Site, home: Home, size: Size = A6_PLAIN.size) -> Card | Refused:
    """The card of a home; refused, with every reason, where it may not be printed or does not fit."""
    appliance = site.ranges.get(home.range)
    if appliance is None:
        return _no_range(site, home)
    style = Style(size, site.logo)
    return card_of(home, appliance, site.firm, site.region, site.library, style=style)


def gathered_for(site: Site, home: Home, size: Size) -> Card | Refused:
    """What belongs on the card of a home, not yet known to fit; refused where it may not be printed."""
    appliance = site.ranges.get(home.range)
    if appliance is None:
        return _no_range(site, home)
    style = Style(size, site.logo)
    return gathered(home, appliance, site.firm, site.region, site.library, style=style)


def _no_range(site: Site, home: Home) -> Refused:
    known = ", ".join(site.ranges) or "none"
    return Refused((Reason("range", f"The home's range {home.range!r} is not among {known}.", "Write its file."),))

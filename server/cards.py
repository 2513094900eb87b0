"""The card of a home of this site, or why there is none; and which cards are no longer as they were printed."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import cast

from kb.card import A6_PLAIN, Card, Reason, Refused, Size, Style, card_of, fingerprint, gathered
from kb.card.sizes import FORMATS
from kb.home import Home
from kb.visit.job import Job
from server.site import Site
from server.store.register import Printed


@dataclass(frozen=True, slots=True)
class Changed:
    """A card that is not as it should be: what was printed, and the fingerprint of what would be printed now.

    `now` is None where it may not be printed; `job` is the one in which an engineer found the card wrong.
    """

    home: Home
    printed: Printed
    now: str | None
    job: Job | None = None

    @property
    def is_as_printed(self) -> bool:
        """Whether the same would be printed again."""
        return self.now == self.printed.fingerprint and self.printed.key == self.home.key


def changed_cards(site: Site) -> Iterator[Changed]:
    """Every home whose last card of a size no longer says what is known, or that an engineer found wrong since."""
    found_wrong = site.store.jobs.cards()
    for home, printed in site.store.register.cards():
        if printed.size in FORMATS:
            now = fingerprint_of(site, home, cast("Size", printed.size))
            card = Changed(home, printed, now, found_wrong.get(home.key))
            if card.job is not None or not card.is_as_printed:
                yield card


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

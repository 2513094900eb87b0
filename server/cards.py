"""The card of a home of this site, or why there is none."""

from kb.card import A6_PLAIN, Card, Reason, Refused, Size, Style, card_of, gathered
from kb.home import Home
from server.site import Site


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

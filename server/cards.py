"""The card of a home of this site, or why there is none."""

from kb.card import Card, Reason, Refused, card_of
from kb.home import Home
from server.site import Site


def card_for(site: Site, home: Home) -> Card | Refused:
    """The card of a home; refused, with every reason, where it may not be printed or does not fit."""
    appliance = site.ranges.get(home.range)
    if appliance is None:
        known = ", ".join(site.ranges) or "none"
        return Refused((Reason("range", f"The home's range {home.range!r} is not among {known}.", "Write its file."),))
    return card_of(home, appliance, site.firm, site.region, site.library)

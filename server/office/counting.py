"""Are all finished calls counted, so that the figures may be shown?"""

from typing import Final

from kb.facts import NOTHING_KNOWN
from kb.figures.finished import call_row
from kb.figures.rows import CallRow
from kb.home import Home
from server.site import Site
from server.store.figures import Waiting

MOST: Final = 200
"""How many calls are counted before a page is shown; what is left waits for the next page."""


def catch_up(site: Site, most: int = MOST) -> int:
    """Count the calls that were closed since the last time, and say how many they were."""
    waiting = site.store.figures.waiting(most)
    rows = [row for each in waiting if (row := _row(site, each))]
    site.store.figures.add_calls(rows)
    return len(rows)


def _row(site: Site, waiting: Waiting) -> CallRow | None:
    kept = site.store.calls.call(waiting.call)
    if kept is None:
        return None
    home = site.store.home(kept.home) if kept.home else None
    known = site.known(home) if isinstance(home, Home) else NOTHING_KNOWN
    return call_row(site.library, kept.id, kept.began, kept.events, site.firm.clock, waiting.home, known, waiting.upto)

"""What did a call come to, for whoever goes?"""

from kb.desk.reading import Reading, read
from kb.desk.script import NoSuchFault
from kb.facts import NOTHING_KNOWN
from kb.home import Home
from server.site import Site


def home_of(site: Site, key: str) -> Home | None:
    """The home of a key, where its key opens it."""
    found = site.store.home(key) if key else None
    return found if isinstance(found, Home) else None


def reading_of(site: Site, call: str) -> Reading | None:
    """A call as it was read on its day; None where there is none, or its fault's article is gone."""
    kept = site.store.calls.call(call) if call else None
    if kept is None:
        return None
    home = home_of(site, kept.home)
    known = site.known(home) if home else NOTHING_KNOWN
    try:
        return read(site.library, kept.events, kept.began.astimezone(site.firm.clock).date(), known)
    except NoSuchFault:
        return None

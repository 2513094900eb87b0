"""Which call is meant, what has come of it by now, and what is known of its home?"""

from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from starlette.requests import Request

from kb.days import full_day
from kb.desk.call import read_call
from kb.desk.danger import ASK_AGAIN_AFTER, due_again
from kb.desk.reading import Reading, read
from kb.facts import NOTHING_KNOWN, Known
from kb.home import Home
from kb.keys import tidy
from server.site import Site
from server.store import Revoked
from server.store.calls import Kept
from server.web.errors import NotFound

ROOM = "/desk"

OLD_CARD = (
    "That card was replaced on {}, and opens nothing any more. The home has a new one with the key {}. "
    "Ask them to use the new card, and to destroy the old one."
)
WITHDRAWN = "That card was withdrawn on {}, and opens nothing any more. Find the home by name, street or postcode."
"""What to say of a key that no longer opens anything."""


@dataclass(frozen=True, slots=True)
class Opened:
    """A call that was read: as it is kept, what follows from it, its home, and what is known of that."""

    kept: Kept
    reading: Reading
    home: Home | None
    known: Known

    @property
    def address(self) -> str:
        """Where the call lies."""
        return f"{ROOM}/{self.kept.id}"


class Book:
    """The calls of one site."""

    def __init__(self, site: Site) -> None:
        """Open calls of this site's store with this site's library."""
        self.site = site

    def today(self) -> date:
        """The day where the firm is."""
        return self.site.now().astimezone(self.site.firm.clock).date()

    def find(self, request: Request) -> Opened:
        """The call that an address names; raises NotFound."""
        kept = self.site.store.calls.call(request.path_params["call"])
        if kept is None:
            raise NotFound
        return self.read(kept)

    def read(self, kept: Kept) -> Opened:
        """What a call has come to."""
        call = read_call(kept.events)
        # What happened names the key of that day; the call itself follows a new one.
        home = self.home(kept.home)
        known = self._known(home, "tenant" in call.flags)
        return Opened(kept, read(self.site.library, kept.events, self.today(), known, self.site.earlier), home, known)

    def home(self, key: str) -> Home | None:
        """The home that a key opens, or did open until it was replaced."""
        found = self.site.store.home(key) if key else None
        return self.site.store.home_of_old(key) if isinstance(found, Revoked) else found

    def old_card(self, written: str) -> str:
        """What to tell a caller who reads out the key of a card that is no longer in use; empty for any other words."""
        key = tidy(written) or ""
        found = self.site.store.home(key) if key else None
        if not isinstance(found, Revoked):
            return ""
        home = self.site.store.home_of_old(key)
        since = full_day(found.on)
        return OLD_CARD.format(since, home.key) if home else WITHDRAWN.format(since)

    def due_in(self, opened: Opened) -> int:
        """In how many seconds gas and alarms are asked about again; nothing is due while other questions wait."""
        agenda = opened.reading.agenda
        now = self.site.now()
        if due_again(agenda, now, self.site.library):
            return 0
        if not agenda.clear or not agenda.answered:
            return -1
        # The two questions are asked early in a round, so the round's last answer is never before theirs.
        step = timedelta(seconds=5)
        for ahead in range(int(ASK_AGAIN_AFTER / step) + 1):
            if due_again(agenda, now + ahead * step, self.site.library):
                return int(ahead * step.total_seconds())
        return -1

    def elapsed(self, kept: Kept) -> str:
        """How long a call has lasted, in minutes and seconds."""
        return lasted(kept.began, self.site.now())

    def _known(self, home: Home | None, rents: bool) -> Known:
        known = self.site.known(home) if home else NOTHING_KNOWN
        if not rents or "tenure" in known.facts:
            return known
        return replace(known, facts={**known.facts, "tenure": "rent"})


def lasted(began: datetime, now: datetime) -> str:
    """A stretch of time as a clock shows it."""
    seconds = max(0, int((now - began).total_seconds()))
    hours, minutes = seconds // 3600, seconds // 60 % 60
    return f"{hours}:{minutes:02}:{seconds % 60:02}" if hours else f"{minutes}:{seconds % 60:02}"

"""How does an engineer on site say that nobody was in, or that the visit is not needed?"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from kb.appointment import AGAIN, OFF, NotMade, Unfit, left
from kb.article import End
from kb.desk.words import day_and_time
from kb.handover.record import Entry
from kb.visit.unsafe import UNSAFE_END
from server.diary.leaving import Leaving, leaving, not_made, one_line
from server.engineer.forms import keepable
from server.engineer.jobs import Seen
from server.site import Site
from server.store.appointments import ToVisit

GONE: Final = "gone"
"""The field whose entry leaves the visit; its text is `Gone` in one line, as a phone keeps it without a signal."""

_PARTS: Final = 3


@dataclass(frozen=True, slots=True)
class Gone:
    """What was tapped: again or off, the reason, how long the trail was on that page, and more in words."""

    what: str
    reason: str
    stood: int
    words: str

    def __str__(self) -> str:
        return f"{self.what} {self.reason} {self.stood} {self.words}".rstrip()


def from_form(form: Mapping[str, str]) -> Gone:
    """What the form says without a script."""
    reason = "nobody" if form[GONE] == AGAIN else form.get("reason", "")
    return Gone(form[GONE], reason, _number(form.get("stood", "")), one_line(keepable(form.get("words", ""))))


def read_gone(text: str) -> Gone | None:
    """The same from an entry; None for what no page of ours would send."""
    parts = text.split(" ", _PARTS)
    if len(parts) < _PARTS:
        return None
    return Gone(parts[0], parts[1], _number(parts[2]), parts[_PARTS] if len(parts) > _PARTS else "")


class Leaver:
    """Leaves the visits of one site."""

    def __init__(self, site: Site) -> None:
        """Write into this site's store."""
        self.site = site

    def stood(self, seen: Seen) -> int:
        """How long the visit's trail is by now."""
        return len(self.site.store.appointments.trail_of(seen.job))

    def shown(self, seen: Seen, form: Mapping[str, str]) -> Leaving | None:
        """What the page asks; None for a visit that is not to be made any more."""
        visit = self._visit(seen)
        return leaving(self.site, visit, form) if visit else None

    def turn(self, seen: Seen, gone: Gone, by: str) -> NotMade | Unfit | str | None:
        """What becomes of the visit, or what is wrong with that; None for one that is not to be made any more."""
        visit = self._visit(seen)
        if visit is None:
            return None
        stopped = any(isinstance(walk.at, End) and walk.at.anchor == UNSAFE_END for walk in seen.walks)
        return not_made(self.site, visit, gone.what, gone.reason, gone.words, by, stopped)

    def keep(self, seen: Seen, entry: Entry) -> None:
        """Leave the visit as an entry says, unless it was agreed anew since the page was shown."""
        gone = read_gone(entry.text)
        turn = self.turn(seen, gone, entry.by) if gone else None
        if gone is not None and isinstance(turn, NotMade):
            self.site.store.appointments.leave(_id(seen), turn, f"gone-{entry.id}", gone.stood)

    def last(self, seen: Seen) -> NotMade | None:
        """That the visit was not made, while nothing was agreed anew."""
        trail = self.site.store.appointments.trail_of(seen.job)
        return trail[-1] if trail and isinstance(trail[-1], NotMade) else None

    def is_off(self, seen: Seen) -> bool:
        """Whether the visit was called off; one that was closed all the same was made."""
        last = self.last(seen)
        return last is not None and last.what == OFF and seen.job.closed is None

    def words(self, seen: Seen) -> str:
        """That the visit was not made, when and by whom; nothing where it was, or was agreed anew."""
        last = self.last(seen)
        if last is None or last.at is None or seen.job.closed is not None:
            return ""
        return f"{left(last)} {last.by}, {day_and_time(last.at, self.site.firm.clock)}"

    def _visit(self, seen: Seen) -> ToVisit | None:
        return self.site.store.appointments.one(_id(seen))


def _id(seen: Seen) -> str:
    return f"c-{seen.job.call}" if seen.job.call else f"j-{seen.job.id}"


def _number(typed: str) -> int:
    return int(typed) if typed.isascii() and typed.isdigit() and len(typed) < 6 else -1

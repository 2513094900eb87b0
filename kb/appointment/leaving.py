"""May a visit be called off or agreed anew because nobody was in, and what is kept of that?"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Final, TypeAlias

from kb.appointment.agreed import Appointment
from kb.appointment.windows import Unfit

AGAIN: Final = "again"
"""Nobody was in; another time is to be agreed."""

OFF: Final = "off"
"""Nobody comes any more."""

REASONS: Final[Mapping[str, str]] = {
    "nobody": "Nobody was in",
    "works": "It works again: not needed",
    "elsewhere": "Somebody else sees to it",
    "not-wanted": "They do not want the visit",
    "slip": "Booked twice, or by mistake",
}
"""Why a visit is not made."""

CAUTION: Final = (
    "Danger does not go away because nobody opens the door. "
    "Has somebody tried their phone, the landlord or emergency contact, and a neighbour?"
)
"""What is said before a visit that may be about danger is left."""

UNSAFE: Final = (
    "Something unsafe was found on this visit, so it can't be called off. "
    "The engineer closes the job with what was done."
)

LONGEST_WORDS: Final = 400
_SOME: Final = 3
"""A visit that may be about danger is not called off in fewer words, by our own rule."""


@dataclass(frozen=True, slots=True)
class NotMade:
    """A visit that was not made: `what` is to become of it (again or off), the reason, and more in words."""

    what: str
    reason: str
    words: str = ""
    by: str = ""
    at: datetime | None = None


Turn: TypeAlias = Appointment | NotMade
"""What a visit came to at a moment: a time that was agreed, or that it was not made."""


def leave(what: str, reason: str, words: str, grave: bool) -> NotMade | Unfit:
    """A visit that is not made, unless it lacks its reason; one that may be about danger wants it in words."""
    words = words.strip()[:LONGEST_WORDS]
    if what not in (AGAIN, OFF):
        return Unfit("another time, or that the visit is called off", f"“{what[:20]}”", "Choose one of the two.")
    if reason not in REASONS or (what == AGAIN and reason != "nobody"):
        return Unfit("why nobody goes", f"“{reason[:20]}”" if reason else "nothing", "Choose the reason.")
    if what == OFF and grave and len(words.split()) < _SOME:
        remedy = "Write in a few words who was tried, and why nobody is in danger."
        return Unfit("a reason in words, since this may be about danger", f"“{words}”" if words else "none", remedy)
    return NotMade(what, reason, words)


def left(turn: NotMade) -> str:
    """What became of a visit, in words."""
    why = REASONS.get(turn.reason, turn.reason)
    begins = f"Called off: {why[:1].lower()}{why[1:]}" if turn.what == OFF else f"{why}: another time is to be agreed"
    return f"{begins}. {turn.words}" if turn.words else f"{begins}."


def kept(turn: NotMade) -> Mapping[str, str]:
    """A visit that was not made, as the event of a call keeps it."""
    return {"what": turn.what, "reason": turn.reason, "words": turn.words}


def read_left(said: Mapping[str, str], by: str = "", at: datetime | None = None) -> NotMade | None:
    """The same from the event of a call; None where nothing usable stands in it."""
    found = leave(said.get("what", ""), said.get("reason", ""), said.get("words", ""), grave=False)
    return None if isinstance(found, Unfit) else NotMade(found.what, found.reason, found.words, by, at)

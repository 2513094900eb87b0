"""What can happen in a call, and how is it kept?"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from enum import StrEnum
from typing import Final

LONGEST_WORDS: Final = 4000
"""More than this nobody says in one go."""


class Did(StrEnum):
    """What happened; behind each stands what is said of it in `Event.said`."""

    ASKED = "asked"
    """A danger question got its answer: `step` and `answer`, one of yes, no and not-sure."""

    ASK_AGAIN = "ask-again"
    """Danger came up again: `which` is all, or gas-alarm after five minutes."""

    SLIPPED = "slipped"
    """The wrong key was pressed at a danger question: `why`."""

    CALLER = "caller"
    """Who rings: fields of `CALLER_FIELDS`."""

    HOME = "home"
    """Which home: `key`, empty for one that is not known; `old` is the replaced key that they read out.

    `repeat` is the day they last rang about it.
    """

    WORDS = "words"
    """The caller's own words: `words`; `danger` are the dangers that they may mean."""

    TOLD = "told"
    """What works, what is shown, since when: fields of `TOLD_FIELDS`; `danger` as with words."""

    PEOPLE = "people"
    """Who is at home and how cold it is: fields of `PEOPLE_FIELDS`."""

    FLAGS = "flags"
    """What the caller cannot do, or is: `flags`, names of `FLAGS`."""

    BEGAN = "began"
    """A fault was begun: `article`, `trail`, `how` (desk, reference or link), `slip`, `lost`."""

    TURNED = "turned"
    """Back to a fault that was begun before: `branch`."""

    ANSWERED = "answered"
    """An answer in the script: `branch`, `place`, `piece`, and the words of `question` and `answer`.

    `stays` and `drops` are the places of earlier answers that wait on, or that no longer exist; `dropped` tells these.
    """

    READ_BACK = "read-back"
    """What came with a reference was read back, and it holds: `branch`."""

    PACE = "pace"
    """How soon, as the handler chose it: `to`, `why`, and `judged` before."""

    NOTED = "noted"
    """Anything else worth keeping: `words`, `danger`."""

    DROPPED = "dropped"
    """The line dropped."""

    HANDED = "handed"
    """The call is a colleague's now: `to`."""

    PROMISED = "promised"
    """What the caller was promised: `what`, `by`."""

    BOOKED = "booked"
    """A visit was agreed, or agreed anew: `window`, `engineer`, `why`, `latest` (see `kb.appointment.said`)."""

    NOT_MADE = "not-made"
    """A visit was not made: `what` (again or off), `reason`, `words` (see `kb.appointment.kept`)."""

    CLOSED = "closed"
    """The call is over: `how`, one of `HOW_CLOSED`; `follow` is when to ask whether it still works."""

    FOLLOWED = "followed"
    """They were asked whether it still works: `works`, yes or no."""


CALLER_FIELDS: Final[Mapping[str, str]] = {
    "phone": "Call-back number",
    "address": "Address",
    "name": "Name",
    "relation": "Who they are to the home",
    "access": "Access, parking, pets",
    "authority": "Who may order the work, up to how much",
}
"""What is written down of who rings, the number and the address first, since the line may drop."""

TOLD_FIELDS: Final[Mapping[str, str]] = {
    "heating": "Heating",
    "hot-water": "Hot water",
    "hob": "Gas hob",
    "code": "What the display shows, as said",
    "since": "Since when, and when it comes",
    "changed": "What changed lately",
}
"""What is asked beside the caller's own words."""

PEOPLE_FIELDS: Final[Mapping[str, str]] = {
    "needs": "Needs",
    "asked": "Whether anybody was asked",
    "consent": "Whether it may be noted",
    "indoor": "Degrees indoors",
    "outdoor": "Degrees outdoors",
    "other-heat": "Something else heats the home",
    "other-hot-water": "There is other hot water",
    "spreading": "The damage spreads",
}
"""What the pace follows from, beside the end."""

FLAGS: Final[Mapping[str, str]] = {
    "not-there": "is not at the boiler",
    "no-climbing": "cannot climb, kneel or reach",
    "tenant": "rents the home",
    "text-only": "cannot hear or speak on the phone",
}
"""What a caller cannot do, or is, that changes what may be asked of them."""

HOW_CLOSED: Final[Mapping[str, str]] = {
    "solved": "Solved by phone",
    "booked": "Booked",
    "emergency": "Handed to the emergency service",
    "elsewhere": "Sent to their supplier, network or landlord",
    "no-answer": "Nobody could be reached again",
}
"""How a call can end."""


@dataclass(frozen=True, slots=True)
class Event:
    """One thing that happened: an id that whoever sent it made, when, by whom, what, and what is said of it."""

    id: str
    at: datetime
    by: str
    did: Did
    said: Mapping[str, str] = field(default_factory=dict)

    def get(self, name: str) -> str:
        """What is said under a name; nothing where it is not said."""
        return self.said.get(name, "")

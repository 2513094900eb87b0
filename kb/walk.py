"""Library, facts and trail: where does somebody stand?

A walk is a pure function: it makes the moves of `kb.guide` that a trail asks for.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from kb.article import Answer, Audience, End, Step
from kb.facts import NOTHING_KNOWN, Known
from kb.guide import Guide, Taken, Trouble
from kb.library import Library

LONGEST: Final = 60
"""More answers than any real walk has: a trail that is longer was not made by a person."""


@dataclass(frozen=True, slots=True)
class Standing:
    """Where a trail leads: the step that waits or the end, every answer on the way, and what was wrong with it.

    With a trouble, the walk stands where the last answer that could be followed led.
    `ahead` and `held` are pieces that wait for their question, before and behind those that were taken.
    """

    at: Step | End
    taken: tuple[Taken, ...]
    facts: Mapping[str, str]
    trouble: Trouble | None = None
    ahead: tuple[str, ...] = ()
    held: tuple[str, ...] = ()

    @property
    def trail(self) -> str:
        """The trail that leads exactly here."""
        return "-".join((*self.ahead, *(taken.written for taken in self.taken if taken.written), *self.held))

    def trail_before(self, place: int) -> str:
        """The trail that leads back to the step of an answer, by its place in `taken`; a loop gives some twice."""
        return "-".join(earlier.written for earlier in self.taken[:place] if earlier.written)

    def trail_with(self, answer: Answer, reading: float | None = None) -> str:
        """The trail that also gives this answer at the step that waits."""
        piece = answer.token if reading is None else f"{answer.token}~{reading:g}"
        return f"{self.trail}-{piece}" if self.trail else piece


def walk(
    library: Library,
    start: Step,
    trail: str,
    known: Known = NOTHING_KNOWN,
    audience: Audience = Audience.HOUSEHOLD,
) -> Standing:
    """Follow a trail from the danger questions through `start` to where it leads.

    Never raises for what a trail says: whatever cannot be followed comes back as a `Trouble`.
    Raises Lost only for a library that the checker refuses.
    """
    guide = Guide(library, known, audience)
    taken: list[Taken] = []
    state = guide.begin(start, taken)
    trouble = None
    pieces = trail.split("-") if trail else []
    if len(pieces) > LONGEST:
        pieces, trouble = [], Trouble.TOO_LONG
    for piece in pieces:
        following = guide.follow(state, piece, taken)
        if isinstance(following, Trouble):
            trouble = following
            break
        state = following
    return Standing(state.at, tuple(taken), state.facts, trouble)

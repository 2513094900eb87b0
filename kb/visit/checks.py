"""Where do the engineer's checks on site stand, and where can they lead?

The moves are those of the one walk (`kb.guide`).
A phone without a signal is handed every stop there is with its ways on, so that it need not know how to walk.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from kb.article import Audience, End, Step
from kb.facts import NOTHING_KNOWN, Known
from kb.guide import NONE_OF_THESE, Guide, State, Taken
from kb.library import Library
from kb.visit.job import DANGER, field_of
from kb.walk import Standing

ARRIVAL: Final = "on-arrival"
"""The article of the checks that come before every fault's own, where there is one."""

_MOST_STOPS: Final = 2000


class TooManyStops(Exception):
    """An article's checks branch into more stops than a page can hold."""


@dataclass(frozen=True, slots=True)
class Stop:
    """A place on the way, and to which other stop each of its answers leads, by the answer's words."""

    place: Step | End
    onward: Mapping[str, int]


def starts(library: Library, article: str) -> tuple[Step, ...]:
    """The checks that are walked on a visit about an article: on arrival, then the fault's own."""
    ids = [id for id in (ARRIVAL, article) if id in library.articles]
    found = (library.articles[id].first(Audience.ENGINEER) for id in ids)
    return tuple(step for step in found if step is not None)


def standing(library: Library, start: Step, texts: Mapping[str, str], known: Known = NOTHING_KNOWN) -> Standing:
    """Follow the answers that stand in a job's fields from `start` to where they lead.

    An answer that was given on a path which a later change of mind left is not on the way, so it counts for nothing.
    """
    guide = Guide(library, known, Audience.ENGINEER)
    taken: list[Taken] = []
    state = guide.begin(start, taken)
    been: set[object] = set()
    while isinstance(state.at, Step) and _key(state) not in been:
        been.add(_key(state))
        following = _follow(guide, state, texts, taken)
        if following is None:
            break
        state = following
    return Standing(state.at, tuple(taken), state.facts)


def _follow(guide: Guide, state: State, texts: Mapping[str, str], taken: list[Taken]) -> State | None:
    for step in guide.open_steps(state):
        text = texts.get(field_of(step.target))
        answer = next((answer for answer in step.answers if answer.text == text), None)
        if answer is not None:
            found = guide.follow(state, answer.token, taken)
            return found if isinstance(found, State) else None
    if guide.at_danger(state) and texts.get(DANGER) == NONE_OF_THESE:
        found = guide.follow(state, NONE_OF_THESE, taken)
        return found if isinstance(found, State) else None
    return None


def stops(library: Library, start: Step, known: Known = NOTHING_KNOWN) -> tuple[Stop, ...]:
    """Every stop from the one behind the danger questions on, that one first; raises TooManyStops."""
    guide = Guide(library, known, Audience.ENGINEER)
    begun = guide.follow(guide.begin(start), NONE_OF_THESE, [])
    first = begun if isinstance(begun, State) else guide.begin(start)
    numbers = {_key(first): 0}
    found = [first]
    made: list[Stop] = []
    while len(made) < len(found):
        state = found[len(made)]
        onward: dict[str, int] = {}
        for words, after in _moves(guide, state):
            if _key(after) not in numbers:
                numbers[_key(after)] = len(found)
                found.append(after)
            onward[words] = numbers[_key(after)]
        made.append(Stop(state.at, onward))
        if len(found) > _MOST_STOPS:
            raise TooManyStops(
                f"Expected at most {_MOST_STOPS} stops in the checks of {start.article}, found more. "
                "Take some of its facts or limits out."
            )
    return tuple(made)


def _moves(guide: Guide, state: State) -> Iterator[tuple[str, State]]:
    if isinstance(state.at, Step):
        for answer in state.at.answers:
            yield answer.text, guide.take(state, answer)


def _key(state: State) -> object:
    return (
        state.at.target,
        frozenset(state.facts.items()),
        frozenset(state.passed.items()),
        tuple(step.target for step in state.pending),
    )

"""loop-without-limit: no walk goes round for ever

A walk that can come back to where it was, and nothing counts, never says whom to call.

This is looked at over the whole library at once, for household and engineer.
Of a step with a limit the answers are left out, since it can be passed only so often, and the way to `then` is
kept, since that can be gone any number of times; a step that asks for a fact keeps all its answers; `danger.md` and
`tried.md` come back to where they were inserted, once, and lead on to nothing.
What is left must hold no circle.
So every walk ends: one without an end would have to go for ever over what is left, and there is no way round there.
The other way about, a circle in what is left is a walk without an end wherever it can be walked.
Some cannot, because they need two answers about the same fact, or a limit that nothing uses up; they are refused all
the same, for nobody would notice the day that a step of theirs is changed.

Put `at-most=` and `then=` on one of the steps that are named, or lead one of their answers to an end.

```good
{at-most=2 then="ends.md#book-a-visit"}
### Is the light on?

- [Yes](ends.md#nothing-is-wrong)
- [No](#turn-the-dial)

### Turn the dial

- [Done](#is-the-light-on)
```

```bad 1
### Is the light on?

- [Yes](ends.md#nothing-is-wrong)
- [No](#turn-the-dial)

### Turn the dial

- [Done](#is-the-light-on)
```

```bad 1
{at-most=2 then="#turn-the-dial"}
### Is the light on?

- [Yes](ends.md#nothing-is-wrong)
- [No](ends.md#book-a-visit)

### Turn the dial

- [Done](#is-the-light-on)
```

```bad 2 in engineer
### Look at the pump

- [It turns](ends.md#job-closed)
- [Look again](#look-at-the-pump)
- [It is stuck](#free-the-pump)

### Free the pump

- [It is still stuck](#free-the-pump)
- [It turns](ends.md#job-closed)
```
"""

from collections.abc import Iterator, Mapping
from datetime import date
from graphlib import CycleError, TopologicalSorter

from kb.article import Audience, Step
from kb.findings import Finding
from kb.library import Library
from kb.prose import Target
from kb.rules._paths import endless


def check(library: Library, today: date) -> Iterator[Finding]:
    """Each circle of steps that nothing counts, named step by step."""
    for audience in Audience:
        for circle in _circles(endless(library, audience)):
            steps = [step for target in circle if isinstance(step := library.find(target, audience), Step)]
            if audience is Audience.HOUSEHOLD or any(step.audience is audience for step in steps):
                yield _finding(steps)


def _finding(steps: list[Step]) -> Finding:
    names = " → ".join(str(step.target) for step in (*steps, steps[0]))
    return Finding(
        steps[0].place,
        "loop-without-limit",
        f"A walk can go round for ever: {names}.",
        "Put at-most=… and then=… on one of these steps, or lead one of their answers to an end.",
    )


def _circles(moves: Mapping[Target, frozenset[Target]]) -> Iterator[tuple[Target, ...]]:
    """Circles, one after the other, each without its last move, until none is left."""
    left = {step: set(onward) for step, onward in sorted(moves.items())}
    while circle := _circle(left):
        yield circle
        left[circle[-1]].discard(circle[0])


def _circle(moves: Mapping[Target, set[Target]]) -> tuple[Target, ...] | None:
    """One circle in the order it is walked, the first step by name at its head."""
    try:
        # The sorter takes a graph of what comes before, so a circle comes out backwards.
        TopologicalSorter({step: sorted(onward) for step, onward in moves.items()}).prepare()
    except CycleError as error:
        walked = list(reversed(error.args[1]))[:-1]
        start = walked.index(min(walked))
        return (*walked[start:], *walked[:start])
    return None

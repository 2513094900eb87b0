"""bounds: the answers to a reading cover every reading once

A household may type what its gauge shows.
The figure then chooses the answer by itself, so a figure that belongs to two answers, or to none, would send
somebody the wrong way or nowhere.

Every reading on the gauge must belong to exactly one answer, whatever a home's own marks are; this is tried at the
usual marks and at the outermost that a home may have, at and just beside every bound.
At least one more answer has no bounds: it is for whoever cannot read the gauge.
Bounds at a step that reads no gauge mean nothing.

```good
{reading=pressure}
### Read the gauge

- [Low](ends.md#an-engineer-today){below=low}
- [Right](ends.md#nothing-is-wrong){from=low to=high}
- [High](ends.md#book-a-visit){above=high below="2.5"}
- [Very high](ends.md#an-engineer-today){from="2.5"}
- [I cannot read it](ends.md#book-a-visit)
```

```bad 1
{reading=pressure}
### Read the gauge

- [Low](ends.md#an-engineer-today){below=low}
- [Right](ends.md#nothing-is-wrong){above=low to=high}
- [High](ends.md#book-a-visit){above=high}
- [I cannot read it](ends.md#book-a-visit)
```

```bad 1
{reading=pressure}
### Read the gauge

- [Low](ends.md#an-engineer-today){to=low}
- [Right](ends.md#nothing-is-wrong){from=low}
- [I cannot read it](ends.md#book-a-visit)
```

```bad 1
{reading=pressure}
### Read the gauge

- [Low](ends.md#an-engineer-today){below=low}
- [Right](ends.md#nothing-is-wrong){from=low to="2.0"}
- [Rather high](ends.md#nothing-is-wrong){above="2.0" to=high}
- [High](ends.md#book-a-visit){above=high}
- [I cannot read it](ends.md#book-a-visit)
```

```bad 1
{reading=pressure}
### Read the gauge

- [Low](ends.md#an-engineer-today){below="1.0"}
- [Right](ends.md#nothing-is-wrong){from="1.0" to=high}
- [High](ends.md#book-a-visit){above=high}
- [I cannot read it](ends.md#book-a-visit)
```

```bad 1
{reading=pressure}
### Read the gauge

- [Low](ends.md#an-engineer-today){below=low}
- [Right](ends.md#nothing-is-wrong){from=low}
```

```bad 1
### Read the gauge

- [Low](ends.md#an-engineer-today){below=low}
- [Right](ends.md#nothing-is-wrong)
```
"""

from collections.abc import Iterator
from datetime import date
from itertools import product
from typing import Final

from kb.article import Answer, Step
from kb.facts import EXTREME_MARKS, PRESSURE_SPAN, GaugeMarks
from kb.findings import Finding
from kb.library import Library

_BESIDE: Final = 0.001


def check(library: Library, today: date) -> Iterator[Finding]:
    """Readings without exactly one answer, and bounds where nothing is read."""
    for step in library.steps():
        if step.reading is None:
            yield from _out_of_place(step)
        else:
            yield from _not_once(step)
            yield from _ways_out(step)


def _out_of_place(step: Step) -> Iterator[Finding]:
    for answer in step.answers:
        if answer.bounds is not None:
            yield Finding(
                answer.place,
                "bounds",
                f"The answer {answer.text!r} has bounds, but its step reads no gauge.",
                "Write {reading=pressure} above the step, or take the bounds out.",
            )


def _ways_out(step: Step) -> Iterator[Finding]:
    if all(answer.bounds is not None for answer in step.answers):
        yield Finding(
            step.place,
            "bounds",
            f"The step {step.title!r} has no answer without bounds.",
            "Add one for whoever cannot read the gauge.",
        )


def _not_once(step: Step) -> Iterator[Finding]:
    """The first reading, at the first marks, that belongs to more or fewer answers than one."""
    bounded = [answer for answer in step.answers if answer.bounds is not None]
    for marks in EXTREME_MARKS:
        for reading in _telling(bounded, marks):
            texts = [repr(answer.text) for answer in bounded if answer.bounds and answer.bounds.hold(reading, marks)]
            if len(texts) != 1:
                yield Finding(
                    step.place,
                    "bounds",
                    f"{reading:.3f} bar belongs to {' and '.join(texts) or 'no answer'} in a home with the marks "
                    f"{marks.low}, {marks.aim} and {marks.high}.",
                    "Let the bounds meet without a gap and without an overlap.",
                )
                return


def _telling(answers: list[Answer], marks: GaugeMarks) -> list[float]:
    """The readings at which something can change: both ends of the gauge, every bound, and just beside it."""
    bounds = [answer.bounds for answer in answers if answer.bounds is not None]
    edges = {marks.bar(edge) for b in bounds for edge in (b.floor, b.ceiling) if edge is not None}
    beside = {round(edge + step, 4) for edge, step in product(edges, (-_BESIDE, 0.0, _BESIDE))}
    low, high = PRESSURE_SPAN
    return sorted(reading for reading in {low, high, *beside} if low <= reading <= high)

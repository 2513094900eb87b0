"""Is each figure possible at all?"""

from collections.abc import Iterator

from kb.engineering.record import Readings, bounds, real, written
from kb.engineering.remark import Remark, question
from kb.engineering.slips import guess, joined


def possible(readings: Readings) -> Iterator[Remark]:
    """A figure beyond what can be is asked about, with a guess at the slip."""
    for name, value in written(readings).items():
        known = bounds(readings, name)
        if real(value) is None:
            yield question("possible", (name,), f"The {known.label} is not a number. Write it again.")
        elif value not in known.possible:
            told = f"The {known.label} is written as {known.possible.of(value)}. It can only be {known.possible}."
            yield question("possible", (name,), joined(told, guess(value, known)))

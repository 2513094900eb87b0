"""What did the firm's closed jobs show: which cause it was, and what had been answered before?"""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import TypeAlias

from kb.prose import Target

Answered: TypeAlias = tuple[Target, str]
"""A step, and the words of the answer that was given there."""


@dataclass(frozen=True, slots=True)
class ClosedJob:
    """One job that was closed with the cause that was proved.

    `answers` are those of the household, the desk and the engineer, one a step; `range` is the appliance's.
    """

    category: str
    range: str
    cause: str
    answers: Mapping[Target, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Tally:
    """The closed jobs of one category, counted: by cause, by cause and answer, and by range and cause.

    `asked` counts, for a cause and a step, the jobs in which the step was answered at all.
    """

    causes: Mapping[str, int] = field(default_factory=dict)
    answers: Mapping[tuple[str, Target, str], int] = field(default_factory=dict)
    asked: Mapping[tuple[str, Target], int] = field(default_factory=dict)
    ranges: Mapping[tuple[str, str], int] = field(default_factory=dict)

    @property
    def jobs(self) -> int:
        """How many jobs were counted."""
        return sum(self.causes.values())

    def of_range(self, range: str) -> Mapping[str, int]:
        """The jobs of one range by cause."""
        return {cause: count for (each, cause), count in self.ranges.items() if each == range}


NO_JOBS = Tally()
"""The tally of a firm that has closed nothing yet."""


def tally(jobs: Iterable[ClosedJob], category: str) -> Tally:
    """Count the closed jobs of a category."""
    causes: Counter[str] = Counter()
    answers: Counter[tuple[str, Target, str]] = Counter()
    asked: Counter[tuple[str, Target]] = Counter()
    ranges: Counter[tuple[str, str]] = Counter()
    for job in jobs:
        if job.category != category:
            continue
        causes[job.cause] += 1
        ranges[job.range, job.cause] += 1
        for step, answer in job.answers.items():
            asked[job.cause, step] += 1
            answers[job.cause, step, answer] += 1
    return Tally(causes, answers, asked, ranges)

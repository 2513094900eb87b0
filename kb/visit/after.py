"""What follows from closing a job: does somebody come back, and has the home changed?"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from kb.appointment import Appointment
from kb.visit.job import Job


@dataclass(frozen=True, slots=True)
class After:
    """All that is kept together with the closing.

    `returning` is the second visit's job, `agreed` its appointment where the engineer agreed one.
    `learnt` is what the home has learnt, by what it says of it, such as `fact:controls` or `mark:aim`.
    """

    returning: Job | None = None
    agreed: Appointment | None = None
    learnt: Mapping[str, object] = field(default_factory=dict)


NOTHING_AFTER = After()
"""What follows from a job that is done with."""

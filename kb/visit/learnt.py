"""What does a closed job teach about the causes of its fault?"""

from collections.abc import Iterable, Mapping

from kb.library import Library
from kb.prose import Target
from kb.triage.jobs import ClosedJob
from kb.visit.job import Job
from kb.walk import Standing


def evidence(library: Library, told: Mapping[Target, str], walks: Iterable[Standing]) -> Mapping[Target, str]:
    """What was answered at each step: by the household and the desk, then by the engineer, who knows best.

    The danger questions are left out: they say what must be done and never what it was.
    """
    given = dict(told)
    for standing in walks:
        given |= {taken.step.target: taken.answer.text for taken in standing.taken}
    danger = library.danger.id if library.danger else ""
    return {step: answer for step, answer in given.items() if step.article != danger}


def closed_job(job: Job, given: Mapping[Target, str]) -> ClosedJob | None:
    """A closed job as the likely causes count it; None while it is open."""
    if job.closed is None:
        return None
    return ClosedJob(job.article, job.range, job.closed.cause, given)

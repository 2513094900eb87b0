"""What was found on a visit that speaks for one cause of its fault or another?"""

from collections.abc import Iterable, Mapping

from kb.library import Library
from kb.prose import Target
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

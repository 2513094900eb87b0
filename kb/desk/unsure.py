"""What does a step lead to for a caller who can't tell, or can't do it?

Most steps have an answer for it.
Where one has none, the path ends: today where a wrong guess could hurt, else within three days.
"""

import re
from collections.abc import Iterator
from typing import Final

from kb.article import Answer, Audience, Call, End, Pace, Step
from kb.library import Library

CANNOT: Final = "cannot"
"""The piece of a call's trail that stands for "they can't tell" where the step has no answer for it."""

_UNSURE: Final = re.compile(
    r"\b(?:not sure|(?:can ?not|can't|do not|don't) (?:tell|know|say)|have not noticed|cannot see it, and)\b",
    re.IGNORECASE,
)
_UNABLE: Final = re.compile(
    r"\b(?:(?:can ?not|can't|could not)(?! (?:pay|wait))|would rather (?:not|stay)|would like to stop|out of reach)\b",
    re.IGNORECASE,
)
_CERTAIN: Final = re.compile(
    r"^(?:yes|no|it|nothing|they|the|one|that)\b(?!.*\bi (?:cannot|am not sure))", re.IGNORECASE
)
_STOP: Final = "stop-here"


def unsure_answer(step: Step) -> Answer | None:
    """The answer of a step for somebody who can't tell, or else for somebody who can't do it."""
    return next(iter(_answers(step, _UNSURE, _UNABLE)), None)


def unable_answer(step: Step) -> Answer | None:
    """The answer of a step for somebody who can't do it, or else for somebody who can't tell."""
    return next(iter(_answers(step, _UNABLE, _UNSURE)), None)


def way_out(library: Library, step: Step) -> End:
    """The end for somebody who can't tell at a step that has no answer for it.

    Raises ValueError for a library without an end where the firm comes, which the checker refuses.
    """
    wanted = Pace.TODAY if risky(library, step) else Pace.THREE_DAYS
    ends = [end for end in library.ends() if end.audience is Audience.HOUSEHOLD and end.call is Call.FIRM]
    fitting = [end for end in ends if end.pace is wanted] or [end for end in ends if end.pace is Pace.TODAY]
    if not fitting:
        raise ValueError("Expected an end where the firm comes today, found none. Add one to ends.md.")
    return next((end for end in fitting if end.anchor == _STOP), fitting[0])


def risky(library: Library, step: Step) -> bool:
    """Whether a wrong guess could hurt: the step tries or measures something, or an answer of it makes safe."""
    if step.limit is not None or step.reading is not None:
        return True
    places = (library.find(answer.target, Audience.HOUSEHOLD) for answer in step.answers)
    return any(isinstance(place, End) and place.pace in (Pace.LEAVE, Pace.MAKE_SAFE) for place in places)


def _answers(step: Step, first: re.Pattern[str], then: re.Pattern[str]) -> Iterator[Answer]:
    unvalued = [answer for answer in step.answers if step.fact and answer.fact_value is None]
    last = [answer for answer in reversed(step.answers) if not _CERTAIN.search(answer.text)]
    for pattern in (first, then):
        yield from (answer for answer in unvalued if pattern.search(answer.text))
        yield from (answer for answer in last if pattern.search(answer.text))

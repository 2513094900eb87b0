"""What do the answers of a call say about the cause?"""

from kb.desk.script import Place
from kb.library import Library
from kb.prose import Target
from kb.triage.causes import Chance, chances
from kb.triage.jobs import NO_JOBS, Tally


def given(place: Place) -> dict[Target, str]:
    """The words of the answer at each step of a fault that was answered, by whomever."""
    return {taken.step.target: taken.answer.text for taken in place.standing.taken}


def causes_of(library: Library, place: Place, closed: Tally = NO_JOBS, range: str = "") -> tuple[Chance, ...]:
    """The likely causes of a fault, the likeliest first.

    They are those of the article that the answers led to, since a walk may lead from one fault to another.
    """
    article = _article_of(library, place)
    if article is None:
        return ()
    steps = {step.target: step for step in library.steps()}
    return chances(library.articles[article], steps, given(place), closed, range)


def _article_of(library: Library, place: Place) -> str | None:
    walked = [place.branch.article, *(taken.step.article for taken in place.standing.taken)]
    with_causes = [each for each in walked if each in library.articles and library.articles[each].causes]
    return with_causes[-1] if with_causes else None

"""Which cause will it be, how likely is each, and what speaks for it?

Bayes' rule over the causes of one article, each answer taken as independent given the cause.
A cause's share is a prior worth `PRIOR_JOBS` closed jobs; what the firm closed is counted on top (a Dirichlet prior
with multinomial counts, as in any textbook of Bayesian statistics).
An answer's chance given a cause is learned in the same way: what the article says of it is worth `EVIDENCE_JOBS` jobs.
The words `times likelier` of an article hold exactly while nothing was closed.

Nothing here may change what a household is told or how soon somebody goes: it only says what to bring.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import prod
from typing import Final

from kb.article import Article, Cause, Step
from kb.prose import Target
from kb.triage.jobs import NO_JOBS, Tally

PRIOR_JOBS: Final = 30.0
"""How many closed jobs an article's shares are worth: fewer than thirty should not move a share (common practice)."""

RANGE_JOBS: Final = 30.0
"""How many closed jobs of a range the firm's experience with all ranges is worth."""

EVIDENCE_JOBS: Final = 10.0
"""How many closed jobs of a cause its evidence, as the article has it, is worth.

More, and a firm whose homes differ from the article's is still misled after five hundred jobs (the tests measure it).
"""

ENOUGH: Final = 0.8
"""The share of all chances that the parts to bring shall cover: four in five."""


@dataclass(frozen=True, slots=True)
class Sign:
    """One answer that speaks for or against a cause: how many times likelier it makes it than it was."""

    step: Target
    answer: str
    times: float


@dataclass(frozen=True, slots=True)
class Chance:
    """A cause, how likely it is between 0 and 1, the signs for and against it, and how many closed jobs it had."""

    cause: Cause
    chance: float
    signs: tuple[Sign, ...]
    jobs: int


def chances(
    article: Article,
    steps: Mapping[Target, Step],
    given: Mapping[Target, str],
    closed: Tally = NO_JOBS,
    range: str = "",
) -> tuple[Chance, ...]:
    """The causes of an article for what was answered, the likeliest first.

    `steps` holds the library's steps, `given` the words of the answer at each step that was answered.
    An article without causes gives none.
    """
    model = _Model(article.causes, steps, closed)
    priors = model.priors(range)
    usual = {step: model.usually(step, answer, priors) for step, answer in given.items()}
    weights = [
        prior * prod(model.likelihood(cause, step, answer) for step, answer in given.items())
        for cause, prior in zip(article.causes, priors, strict=True)
    ]
    total = sum(weights)
    found = [
        Chance(cause, weight / total, tuple(_signs(model, cause, given, usual)), closed.causes.get(cause.name, 0))
        for cause, weight in zip(article.causes, weights, strict=True)
    ]
    return tuple(sorted(found, key=lambda each: -each.chance))


def to_bring(found: Sequence[Chance]) -> tuple[str, ...]:
    """The parts of the likeliest causes that together cover four chances in five, each once."""
    covered, parts = 0.0, dict[str, None]()
    for each in found:
        if covered >= ENOUGH:
            break
        covered += each.chance
        parts |= dict.fromkeys(each.cause.bring)
    return tuple(parts)


def _signs(model: "_Model", cause: Cause, given: Mapping[Target, str], usual: Mapping[Target, float]) -> Iterator[Sign]:
    for step, answer in given.items():
        times = model.likelihood(cause, step, answer) / usual[step]
        if not 0.8 < times < 1.25:
            yield Sign(step, answer, times)


class _Model:
    """The chances of an article's answers given its causes."""

    def __init__(self, causes: Sequence[Cause], steps: Mapping[Target, Step], closed: Tally) -> None:
        self._causes = causes
        self._steps = steps
        self._closed = closed
        self._strengths = {
            (cause.name, evidence.step, evidence.answer): evidence.strength if towards else 1 / evidence.strength
            for cause in causes
            for towards, pieces in ((True, cause.points_to), (False, cause.points_away))
            for evidence in pieces
        }
        self._base: dict[Target, float] = {}

    def priors(self, range: str) -> list[float]:
        """The chance of each cause before anything was answered, for a range of appliances."""
        shares = [cause.share for cause in self._causes]
        everywhere = _updated([share / sum(shares) for share in shares], PRIOR_JOBS, self._closed.causes, self._causes)
        here = self._closed.of_range(range)
        return _updated(everywhere, RANGE_JOBS, here, self._causes) if here else everywhere

    def likelihood(self, cause: Cause, step: Target, answer: str) -> float:
        """The chance of an answer where the cause is this one."""
        if step not in self._steps:
            return 1.0
        told = EVIDENCE_JOBS * self._strength(cause, step, answer) * self._usual(step)
        seen = self._closed.answers.get((cause.name, step, answer), 0)
        return (told + seen) / (EVIDENCE_JOBS + self._closed.asked.get((cause.name, step), 0))

    def usually(self, step: Target, answer: str, priors: Sequence[float]) -> float:
        """The chance of an answer over all causes."""
        each = zip(self._causes, priors, strict=True)
        return sum(prior * self.likelihood(cause, step, answer) for cause, prior in each)

    def _strength(self, cause: Cause, step: Target, answer: str) -> float:
        return self._strengths.get((cause.name, step, answer), 1.0)

    def _usual(self, step: Target) -> float:
        """The chance of an answer that says nothing, small enough for all of a step's answers to be chances.

        What is left over for a cause is something else that might have been answered.
        """
        if step not in self._base:
            answers = [answer.text for answer in self._steps[step].answers]
            most = max(sum(self._strength(cause, step, answer) for answer in answers) for cause in self._causes)
            self._base[step] = 1 / max(most, len(answers))
        return self._base[step]


def _updated(prior: Sequence[float], worth: float, counts: Mapping[str, int], causes: Sequence[Cause]) -> list[float]:
    seen = [counts.get(cause.name, 0) for cause in causes]
    return [(worth * share + count) / (worth + sum(seen)) for share, count in zip(prior, seen, strict=True)]

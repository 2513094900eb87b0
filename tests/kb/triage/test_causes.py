"""Likely causes: by hand, against another's naive Bayes, and on simulated firms."""

import re
from collections.abc import Mapping
from fractions import Fraction
from random import Random

import pytest
from sklearn.naive_bayes import CategoricalNB

from kb.article import Article, Step
from kb.prose import Target
from kb.triage import causes
from kb.triage.causes import Chance, chances, to_bring
from kb.triage.jobs import ClosedJob, Tally, tally
from tests.builders import article

COLD = """
# The boiler is cold

## For the household

### Does it hum?

- [Yes](#is-it-warm)
- [No](#is-it-warm)
- [I cannot tell](#is-it-warm)

### Is it warm?

- [Warm](ends.md#it-works)
- [Cold](ends.md#call-us)

## For the engineer

### Look

- [Done](ends.md#job-closed)

### Likely causes

| Cause | Share | Bring | Points to it | Points away |
|---|---|---|---|---|
| The pump | 50 | pump, gaskets | [Yes](#does-it-hum) ×6 | [Warm](#is-it-warm) ×2 |
| The board | 30 | board | [No](#does-it-hum) ×3 | |
| The valve | 20 | valve, gaskets | [Cold](#is-it-warm) ×2 | |
"""
HUM, WARM = Target("cold", "does-it-hum"), Target("cold", "is-it-warm")


@pytest.fixture
def cold() -> Article:
    return article("cold", COLD, category="cold")


def steps_of(read: Article) -> Mapping[Target, Step]:
    return {step.target: step for step in read.steps}


def told(found: tuple[Chance, ...]) -> dict[str, float]:
    return {each.cause.name: each.chance for each in found}


def test_with_nothing_answered_the_chances_are_the_shares(cold: Article) -> None:
    assert told(chances(cold, steps_of(cold), {})) == pytest.approx(
        {"The pump": 0.5, "The board": 0.3, "The valve": 0.2}
    )


def test_an_answer_weighs_as_the_article_says_by_hand(cold: Article) -> None:
    # Bayes' rule by hand: 50·6 : 30·1 : 20·1.
    by_hand = {"The pump": Fraction(300, 350), "The board": Fraction(30, 350), "The valve": Fraction(20, 350)}

    assert told(chances(cold, steps_of(cold), {HUM: "Yes"})) == pytest.approx(by_hand)


def test_two_answers_and_closed_jobs_weigh_as_by_hand(cold: Article) -> None:
    # Shares 50, 30, 20 worth 30 jobs, and 10 jobs closed, all boards that did not hum and were never felt.
    # Prior: 15/40, 19/40, 6/40. Humming: the usual chance of an answer is 1/8, because the strengths 6+1+1 sum to 8;
    # "No" for a board was told 3/8 and is now (10·3/8 + 10)/20; for the others it stays 1/8.
    # Warm: the strengths 1+2 sum to 3; "Cold" is 1/3, for the valve 2/3.
    closed = tally([ClosedJob("cold", "any", "The board", {HUM: "No"})] * 10, "cold")
    board = Fraction(19, 40) * (10 * Fraction(3, 8) + 10) / 20 * Fraction(1, 3)
    pump = Fraction(15, 40) * Fraction(1, 8) * Fraction(1, 3)
    valve = Fraction(6, 40) * Fraction(1, 8) * Fraction(2, 3)
    whole = board + pump + valve

    found = told(chances(cold, steps_of(cold), {HUM: "No", WARM: "Cold"}, closed))
    assert found == pytest.approx({"The board": board / whole, "The pump": pump / whole, "The valve": valve / whole})


def test_a_ranges_own_jobs_weigh_on_top_of_everybodys(cold: Article) -> None:
    valves = [ClosedJob("cold", "marlpit-c", "The valve")] * 30
    closed = tally([*valves, *[ClosedJob("cold", "other", "The pump")] * 30], "cold")

    # Everywhere: the valve (30·0.2 + 30)/90 = 0.4. In this range: (30·0.4 + 30)/60 = 0.7.
    assert told(chances(cold, steps_of(cold), {}, closed, "marlpit-c"))["The valve"] == pytest.approx(0.7)
    assert told(chances(cold, steps_of(cold), {}, closed, "unknown"))["The valve"] == pytest.approx(0.4)


def test_a_job_of_another_category_or_an_unknown_cause_changes_nothing(cold: Article) -> None:
    closed = tally([ClosedJob("hot", "any", "The pump"), ClosedJob("cold", "any", "Gone from the table")], "cold")

    assert told(chances(cold, steps_of(cold), {}, closed)) == pytest.approx(told(chances(cold, steps_of(cold), {})))


def test_an_answer_of_a_step_that_is_gone_says_nothing(cold: Article) -> None:
    gone = {Target("cold", "gone"): "Yes"}

    assert told(chances(cold, steps_of(cold), gone)) == pytest.approx(told(chances(cold, steps_of(cold), {})))


def test_the_signs_say_what_spoke_for_and_against(cold: Article) -> None:
    pump = chances(cold, steps_of(cold), {HUM: "Yes", WARM: "Warm"})[0]

    assert pump.cause.name == "The pump"
    assert [(sign.answer, sign.times > 1) for sign in pump.signs] == [("Yes", True), ("Warm", False)]


def test_the_parts_cover_four_chances_in_five(cold: Article) -> None:
    assert to_bring(chances(cold, steps_of(cold), {HUM: "Yes"})) == ("pump", "gaskets")
    assert to_bring(chances(cold, steps_of(cold), {})) == ("pump", "gaskets", "board")


def test_an_article_without_causes_has_no_chances() -> None:
    text = COLD.split("### Likely causes")[0].replace("The boiler is cold", "Bare")

    assert chances(article("bare", text, category="bare"), {}, {HUM: "Yes"}) == ()


FLAT = re.sub(r"\[\w+\]\(#[\w-]+\) ×\d", "", COLD)
HUMS = {"The pump": (8, 1, 1), "The board": (1, 8, 1), "The valve": (3, 3, 4)}
WARMS = {"The pump": (2, 8), "The board": (5, 5), "The valve": (1, 9)}
HUM_ANSWERS, WARM_ANSWERS = ("Yes", "No", "I cannot tell"), ("Warm", "Cold")


def jobs_by_chance(random: Random, number: int) -> list[ClosedJob]:
    def job(name: str) -> ClosedJob:
        hum, warm = random.choices(HUM_ANSWERS, HUMS[name])[0], random.choices(WARM_ANSWERS, WARMS[name])[0]
        return ClosedJob("cold", "any", name, {HUM: hum, WARM: warm})

    return [job(name) for name in random.choices(list(HUMS), (6, 3, 1), k=number)]


def theirs(
    closed: list[ClosedJob], names: list[str], step: Target, answers: tuple[str, ...], answer: str
) -> list[float]:
    """The chances that scikit-learn gives the causes for one answer, all causes taken as equally likely before."""
    model = CategoricalNB(alpha=causes.EVIDENCE_JOBS / len(answers), class_prior=[1 / len(names)] * len(names))
    model.fit([[answers.index(job.answers[step])] for job in closed], [names.index(job.cause) for job in closed])
    return list(model.predict_proba([[answers.index(answer)]])[0])


@pytest.mark.parametrize("hum", HUM_ANSWERS)
@pytest.mark.parametrize("warm", WARM_ANSWERS)
def test_what_is_learned_is_what_scikit_learn_learns_from_the_same_jobs(hum: str, warm: str) -> None:
    # Where the article says nothing, EVIDENCE_JOBS jobs over a step's k answers are CategoricalNB's alpha of
    # EVIDENCE_JOBS / k. Its alpha is one for all features, so each step has a model of its own.
    flat = article("cold", FLAT, category="cold")
    names = [cause.name for cause in flat.causes]
    closed = jobs_by_chance(Random(5), 300)
    prior = [(30 * cause.share / 100 + sum(j.cause == cause.name for j in closed)) / 330 for cause in flat.causes]
    by_hum, by_warm = theirs(closed, names, HUM, HUM_ANSWERS, hum), theirs(closed, names, WARM, WARM_ANSWERS, warm)
    weighed = [p * h * w for p, h, w in zip(prior, by_hum, by_warm, strict=True)]

    ours = told(chances(flat, steps_of(flat), {HUM: hum, WARM: warm}, tally(closed, "cold")))
    assert [ours[name] for name in names] == pytest.approx([each / sum(weighed) for each in weighed])


def simulated(seed: int) -> tuple[list[ClosedJob], Tally]:
    random = Random(seed)
    return jobs_by_chance(random, 500), tally(jobs_by_chance(random, 500), "cold")


def test_after_five_hundred_jobs_the_first_two_beat_the_best_fixed_order(cold: Article) -> None:
    later, closed = simulated(11)
    fixed = sorted(closed.causes, key=lambda name: -closed.causes[name])[:2]
    found = [(job.cause, chances(cold, steps_of(cold), job.answers, closed)[:2]) for job in later]
    hits = sum(cause in [each.cause.name for each in first_two] for cause, first_two in found)

    assert hits >= sum(job.cause in fixed for job in later)


def test_after_five_hundred_jobs_the_chances_are_calibrated_within_five_points(cold: Article) -> None:
    bins: dict[int, list[tuple[float, bool]]] = {}
    for later, closed in map(simulated, range(6)):
        for job in later:
            for each in chances(cold, steps_of(cold), job.answers, closed):
                bins.setdefault(int(each.chance * 5), []).append((each.chance, each.cause.name == job.cause))

    for said in (each for each in bins.values() if len(each) >= 300):
        foretold = sum(chance for chance, _ in said) / len(said)
        came_true = sum(right for _, right in said) / len(said)
        assert abs(foretold - came_true) < 0.05, (foretold, came_true, len(said))


def brier(cold: Article, later: list[ClosedJob], closed: Tally) -> float:
    """The mean squared distance of the chances from what came true (Brier, 1950)."""
    distances = [
        (each.chance - (each.cause.name == job.cause)) ** 2
        for job in later
        for each in chances(cold, steps_of(cold), job.answers, closed)
    ]
    return sum(distances) / len(later)


def test_the_brier_score_falls_as_jobs_are_closed(cold: Article) -> None:
    later, closed = simulated(3)

    assert brier(cold, later, closed) < brier(cold, later, tally([], "cold"))

"""Real situations, walked to the end: is it what an engineer would say on the phone?

Three for each fault in `situations.tsv`, with tabs between: the fault, what happened in that home, the answers given
in turn (their first words, or a figure for the gauge) and where that leads.
Where each leads is common practice, to be confirmed by a registered engineer.
The danger questions are answered with no throughout.
"""

from collections import Counter
from pathlib import Path

import pytest

from kb.article import Answer, Audience, End, Step
from kb.facts import NOTHING_KNOWN
from kb.guide import NONE_OF_THESE, answer_to
from kb.library import load
from kb.walk import Standing, walk

LIBRARY = load(Path(__file__).parents[2] / "articles/en")
SITUATIONS = [
    tuple(line.split("\t")) for line in Path(__file__).with_name("situations.tsv").read_text("utf-8").splitlines()
]


def given(step: Step, words: str) -> tuple[Answer, float | None]:
    """The answer that somebody gave, in its first words or as a figure on the gauge."""
    if words.replace(".", "").isdigit():
        answer = answer_to(step, float(words), NOTHING_KNOWN)
        assert answer is not None, f"{step.title!r} takes no {words}"
        return answer, float(words)
    starting = [answer for answer in step.answers if answer.text.startswith(words)]
    assert starting, f"{step.title!r} has no answer {words!r}"
    return starting[0], None


def walked(fault: str, answers: str) -> Standing:
    start = LIBRARY.articles[fault].first(Audience.HOUSEHOLD)
    assert start is not None
    standing = walk(LIBRARY, start, NONE_OF_THESE)
    for words in answers.split(" > "):
        assert isinstance(standing.at, Step), f"over before {words!r}"
        standing = walk(LIBRARY, start, standing.trail_with(*given(standing.at, words)))
    return standing


@pytest.mark.parametrize(
    ("fault", "situation", "answers", "leads_to"), SITUATIONS, ids=[told for _, told, *_ in SITUATIONS]
)
def test_somebody_at_home_comes_to_what_an_engineer_would_say(
    fault: str, situation: str, answers: str, leads_to: str
) -> None:
    at = walked(fault, answers).at

    assert (at.anchor if isinstance(at, End) else f"{at.article}#{at.anchor}") == leads_to


def test_every_fault_is_walked_three_times() -> None:
    faults = [article.id for article in LIBRARY.faults()]

    assert Counter(fault for fault, *_ in SITUATIONS) == dict.fromkeys(faults, 3)

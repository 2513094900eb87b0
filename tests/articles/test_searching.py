"""People find a how-to by the words that it says people use.

Faults stand above how-tos where both fit, since whoever has a fault must not be led past it.
"""

from pathlib import Path

import pytest

from kb.header import Kind
from kb.library import load
from kb.search import build

LIBRARY = load(Path(__file__).parents[2] / "articles/en")
FINDER = build(LIBRARY)
HOW_TOS = [article for article in LIBRARY.articles.values() if article.header.kind is Kind.HOW_TO]


def rank(article: str, phrase: str) -> int:
    """Where an article stands among all that a phrase finds; far down if it is not there."""
    hits = [hit.article for hit in FINDER.find(phrase, limit=99).hits]
    return hits.index(article) + 1 if article in hits else 99


@pytest.mark.parametrize("article", HOW_TOS, ids=lambda article: article.id)
def test_each_of_its_own_phrases_finds_it_on_the_first_page_and_most_near_the_top(article):
    ranks = {phrase: rank(article.id, phrase) for phrase in article.header.also_said}

    assert {phrase: at for phrase, at in ranks.items() if at > 8} == {}
    assert sum(at <= 4 for at in ranks.values()) >= 0.75 * len(ranks), ranks


@pytest.mark.parametrize(
    ("phrase", "article"),
    [
        ("who do I ring", "service"),
        ("clocks went back and the heating is an hour out", "timers-and-thermostats"),
        ("new batteries for the thermostat", "timers-and-thermostats"),
        ("what do the numbers on the radiator valve mean", "set-the-temperatures"),
        ("how hot should the hot water be for a baby", "set-the-temperatures"),
        ("just moved in, how does the heating work", "new-home-or-new-boiler"),
        ("where is the benchmark book", "new-home-or-new-boiler"),
        ("is the guarantee registered", "new-home-or-new-boiler"),
        ("first frost is coming", "ready-for-winter"),
        ("what do I do with the heating in summer", "ready-for-winter"),
        ("how do I test the carbon monoxide alarm", "test-the-alarm"),
        ("where does a CO alarm go", "test-the-alarm"),
        ("is it ok to box in the boiler", "before-you-build-or-decorate"),
        ("can I block the air vent, it is draughty", "before-you-build-or-decorate"),
        ("how do I use the immersion heater", "timers-and-thermostats"),
    ],
)
def test_what_households_ask_after_a_handover_is_found(phrase, article):
    # Our own phrases for the questions that come after a handover (common practice).
    assert rank(article, phrase) <= 4

"""A trail read out over the phone comes back as the same trail, or says where it cannot."""

from pathlib import Path
from random import Random

import pytest

from kb.article import Audience, End, Step
from kb.facts import NOTHING_KNOWN, GaugeMarks, Known
from kb.guide import NONE_OF_THESE, answer_to, none_of
from kb.keys import ALPHABET
from kb.library import Library, load
from kb.reference import Heard, Slip, heard, reference
from kb.walk import walk
from tests.builders import library

COLD = """
# The boiler is cold

## For the household

### Is it on?

- [Yes](#what-does-the-gauge-say)
- [No](ends.md#call-us)

{reading=pressure}
### What does the gauge say?

- [Low](ends.md#call-us){below=low}
- [Fine](ends.md#it-works){from=low}

## For the engineer

### Look

- [Done](ends.md#job-closed)
"""


NOTHING_THERE = library()


@pytest.fixture(scope="module")
def articles() -> Library:
    return load(Path(__file__).parents[2] / "articles/en")


def wander(books: Library, start: Step, random: Random, known: Known) -> str:
    """A trail of a household that answers by chance, and types figures where it may."""
    trail = none_of(books)
    while isinstance(step := walk(books, start, trail, known).at, Step):
        figure = random.randrange(0, 401) / 100
        answer = answer_to(step, figure, known) if random.random() < 0.5 else None
        piece = f"{answer.token}~{figure:g}" if answer else random.choice(step.answers).token
        trail += f"-{piece}"
    return trail


def starts(books: Library) -> list[Step]:
    firsts = (article.first(Audience.HOUSEHOLD) for article in (*books.faults(), *books.how_tos()))
    return [first for first in firsts if first]


@pytest.mark.parametrize(
    "known", [NOTHING_KNOWN, Known({"system": "sealed", "fuel": "lpg"}, GaugeMarks(0.7, 1.0, 1.5))]
)
def test_walks_through_every_article_come_back_as_they_were_said(articles: Library, known: Known) -> None:
    random = Random(20261125)
    for start in starts(articles):
        for _ in range(10):
            trail = wander(articles, start, random, known)
            assert heard(articles, reference(articles, start, trail, known), known) == Heard(start.article, trail)


def test_a_reference_is_short_enough_to_be_read_out(articles: Library) -> None:
    random = Random(20261125)
    start = articles.articles["low-pressure"].first(Audience.HOUSEHOLD)
    assert start
    trails = [wander(articles, start, random, NOTHING_KNOWN) for _ in range(50)]

    for trail in trails:
        said = reference(articles, start, trail).replace(" ", "")
        assert len(said) <= 6 + len(trail.split("-")) + 2 * trail.count("~")


def test_no_two_articles_are_said_alike(articles: Library) -> None:
    said = {reference(articles, start, "")[:3] for start in starts(articles)}

    assert len(said) == len(starts(articles))


def holds(code: str) -> bool:
    """Whether a code passes for one that nobody mistyped, whatever it may say."""
    return heard(NOTHING_THERE, code).slip is not Slip.MISTYPED


def checked(length: int) -> str:
    """Some code of this length with the check that belongs to it: the one of all 23 that holds."""
    some = "".join(Random(length).choices(ALPHABET, k=length))
    return next(some + check for check in ALPHABET if holds(some + check))


@pytest.mark.parametrize("length", range(6, 60))
def test_one_wrong_character_at_any_place_is_always_caught(length: int) -> None:
    code = checked(length)
    for place, right in enumerate(code):
        for wrong in set(ALPHABET) - {right}:
            assert not holds(code[:place] + wrong + code[place + 1 :])


@pytest.mark.parametrize("length", range(6, 60))
def test_two_neighbours_that_change_places_are_always_caught(length: int) -> None:
    code = checked(length)
    for place in range(len(code) - 1):
        one, other = code[place : place + 2]
        assert one == other or not holds(code[:place] + other + one + code[place + 2 :])


@pytest.mark.parametrize("written", ["", "K", "K7Q M", "ÄÖÜ 4ACD", "0000 0000", "x" * 500])
def test_what_is_no_reference_is_told_so(written: str) -> None:
    assert heard(library(cold=COLD), written).slip is Slip.MISTYPED


def test_case_spaces_and_dashes_do_not_matter() -> None:
    books = library(cold=COLD)
    start = books.articles["cold"].steps[0]
    said = reference(books, start, f"none-{start.answers[0].token}")

    assert heard(books, said.lower().replace(" ", "-")) == heard(books, said.replace(" ", "")) == heard(books, said)


def test_an_answer_that_is_gone_is_counted_and_those_before_it_are_kept() -> None:
    books = library(cold=COLD)
    start = books.articles["cold"].steps[0]
    yes, fine = start.answers[0], books.articles["cold"].steps[1].answers[1]
    said = reference(books, start, f"none-{yes.token}-{fine.token}")
    newer = library(cold=COLD.replace("[Low]", "[Below the mark]").replace("[Fine]", "[Above the mark]"))

    back = heard(newer, said)
    assert back.article == "cold"
    assert back.slip is Slip.CHANGED
    assert back.trail.startswith(f"{none_of(newer)}-{yes.token}")
    assert isinstance(walk(newer, newer.articles["cold"].steps[0], f"none-{yes.token}").at, Step)


def test_an_answer_in_the_place_of_another_is_never_taken_for_it_in_silence() -> None:
    books = library(cold=COLD)
    start = books.articles["cold"].steps[0]
    said = reference(books, start, f"none-{start.answers[0].token}")
    for words in ("On", "Certainly", "It is", "I think so", "Lit", "Aye", "Surely", "Green", "Red", "Blue", "Dark"):
        newer = library(cold=COLD.replace("[Yes]", f"[{words}]"))
        assert heard(newer, said).slip is Slip.CHANGED, words


def test_an_article_that_is_gone_is_told() -> None:
    books = library(cold=COLD)
    said = reference(books, books.articles["cold"].steps[0], NONE_OF_THESE)

    assert heard(library(warm=COLD), said).slip is Slip.NO_SUCH_ARTICLE


def test_a_trail_that_cannot_be_followed_is_said_as_far_as_it_goes() -> None:
    books = library(cold=COLD)
    start = books.articles["cold"].steps[0]

    assert (
        heard(books, reference(books, start, f"none-{start.answers[1].token}-zzz")).trail
        == f"{none_of(books)}-{start.answers[1].token}"
    )
    assert isinstance(walk(books, start, f"none-{start.answers[1].token}").at, End)

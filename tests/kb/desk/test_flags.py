import pytest

from kb.desk.flags import ARTICLES, PASSAGES, articles, out_of_reach, passages
from tests.kb.desk.calling import books, real

REAL = real()
STEPS = {step.target: step for step in REAL.steps()}


def step(article: str, title: str):
    return next(each for each in REAL.articles[article].steps if each.title == title)


@pytest.mark.parametrize("flag", sorted(PASSAGES))
def test_the_words_and_the_article_for_a_caller_like_this_are_there(flag: str) -> None:
    assert len(passages(REAL, [flag])) == 1
    assert articles(REAL, [flag]) == (ARTICLES[flag],)


def test_a_library_without_them_shows_none() -> None:
    assert passages(books(), PASSAGES) == articles(books(), ARTICLES) == ()


@pytest.mark.parametrize(
    ("flag", "article", "title"),
    [
        ("not-there", "low-pressure", "What does the gauge say now?"),
        ("not-there", "low-pressure", "Turn the boiler off and let it cool"),
        ("no-climbing", "low-pressure", "How much water is in the small tank?"),
        ("no-climbing", "thaw-a-condensate-pipe", "Can you reach the pipe from the ground?"),
        ("text-only", "condensate", "Press reset and listen"),
    ],
)
def test_a_step_this_caller_should_not_do_says_why(flag: str, article: str, title: str) -> None:
    assert out_of_reach(step(article, title), [flag])
    assert not out_of_reach(step(article, title), [])


def test_what_is_only_remembered_is_asked_of_anybody() -> None:
    assert not out_of_reach(step("low-pressure", "Was air let out of a radiator lately?"), ["not-there", "text-only"])


def test_every_step_that_tries_something_is_kept_from_somebody_who_is_not_there() -> None:
    tries = [each for each in STEPS.values() if each.limit and each.limit.action and each.audience == "household"]
    assert tries
    assert all(out_of_reach(each, ["not-there"]) for each in tries)

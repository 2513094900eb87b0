"""The short question that settles a tie."""

from pathlib import Path

import pytest

from kb.library import Library, load
from kb.reading import sentences, words
from kb.search import Answered, Finder, Hit, Question, build
from kb.search.questions import Asked, load_questions, settling

WHERE = Asked("Where?", (("Here", ("one", "two")), ("There", ("three",)), ("Nowhere", ("four",))))
EVERYWHERE = ("one", "two", "three", "four")


@pytest.fixture(scope="module")
def articles() -> Library:
    return load(Path(__file__).parents[3] / "articles" / "en")


@pytest.fixture(scope="module")
def finder(articles: Library) -> Finder:
    return build(articles)


def asked(*hits: tuple[str, float], offered: tuple[str, ...] = EVERYWHERE) -> Question | None:
    return settling([Hit(*hit) for hit in hits], [WHERE], offered)


def test_a_tie_is_settled_by_a_question_that_parts_the_two() -> None:
    question = asked(("two", 9.0), ("three", 8.0))

    assert question == Question(
        "Where?", (Answered("Here", "two"), Answered("There", "three"), Answered("Nowhere", "four"))
    )


def test_a_clear_first_needs_no_question() -> None:
    assert asked(("two", 9.0), ("three", 4.0)) is None


def test_a_single_hit_needs_no_question() -> None:
    assert asked(("two", 9.0)) is None


def test_a_question_that_has_both_under_one_answer_settles_nothing() -> None:
    assert asked(("one", 9.0), ("two", 9.0)) is None


def test_an_answer_that_leads_to_nothing_this_home_is_offered_is_not_shown() -> None:
    question = asked(("two", 9.0), ("three", 8.0), offered=("two", "three"))

    assert question is not None
    assert [answer.words for answer in question.answers] == ["Here", "There"]


def test_every_answer_leads_to_a_fault_and_never_to_a_danger(articles: Library) -> None:
    faults = {each.id for each in articles.faults() if not each.header.emergency}
    led_to = {article for each in load_questions() for _, leads in each.answers for article in leads}

    assert led_to <= faults


def test_no_article_stands_under_two_answers_of_one_question() -> None:
    for each in load_questions():
        led_to = [article for _, leads in each.answers for article in leads]
        assert len(led_to) == len(set(led_to)), each.words


def test_questions_are_short_enough_for_a_tired_person() -> None:
    said = [
        words(s) for each in load_questions() for text in (each.words, *dict(each.answers)) for s in sentences(text)
    ]

    assert max(map(len, said)) <= 12


def test_radiators_alone_leave_open_whether_all_of_them_are_meant(finder: Finder) -> None:
    question = finder.find("the rads are not working").question

    assert question is not None
    assert question.words == "Are all the radiators cold?"


def test_no_question_is_asked_beside_a_danger(finder: Finder) -> None:
    found = finder.find("the carbon monoxide alarm went off and the fan is loud")

    assert found.danger
    assert found.question is None

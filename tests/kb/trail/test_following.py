"""A trail whose library has changed keeps every answer that still exists, and says which do not."""

from collections import Counter

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from kb.article import End, Step
from kb.facts import NOTHING_KNOWN, Known
from kb.guide import By, none_of
from kb.library import Library
from kb.trail import Followed, follow_trail, gone_words
from kb.walk import Standing, walk
from tests.builders import DANGER
from tests.kb.trail.shelves import Shelf, Written, edited, household, shelves, signs

FIRST = (
    Written("Is it on?", ("Yes", "Perhaps", "No")),
    Written("Is it warm?", ("Warm", "Tepid", "Cold")),
    Written("Is it loud?", ("Loud", "Humming", "Still")),
)
SHELF = Shelf(FIRST)


def wander(books: Library, data: st.DataObject, most: int = 12) -> Standing:
    """Somebody who answers by chance, and may stop on the way."""
    start = books.articles["first"].steps[0]
    trail = none_of(books)
    for _ in range(data.draw(st.integers(0, most))):
        standing = walk(books, start, trail)
        if isinstance(standing.at, End):
            break
        trail = standing.trail_with(data.draw(st.sampled_from(standing.at.answers)))
    return walk(books, start, trail)


def given_in(standing: Standing) -> list[tuple[str, str]]:
    return [(each.step.title, each.answer.text) for each in standing.taken if each.by is By.PERSON]


def follow(books: Library, trail: str, known: Known = NOTHING_KNOWN, *earlier: Library) -> Followed:
    return follow_trail(books, books.articles["first"].steps[0], trail.split("-"), known, earlier)


def trail_of(books: Library, *words: str) -> str:
    """The trail of somebody who says no to danger, and then these words."""
    start, trail = books.articles["first"].steps[0], none_of(books)
    for each in words:
        at = walk(books, start, trail).at
        assert isinstance(at, Step)
        trail = f"{trail}-{next(answer.token for answer in at.answers if answer.text == each)}"
    return trail


def one_sign_each(*books: Library) -> bool:
    """Whether no token stands for two answers, which by chance one in thirty thousand does."""
    return all(len({(title, text) for _, title, text in those}) == 1 for those in signs(*books).values())


@settings(deadline=None)
@given(shelves(limited=True), st.data())
def test_a_trail_of_the_very_library_leads_where_the_walk_leads(shelf: Shelf, data: st.DataObject) -> None:
    books = shelf.library
    assume(one_sign_each(books))
    walked = wander(books, data)
    followed = follow(books, walked.trail)

    assert followed.standing == walked
    assert (followed.waiting, followed.gone, followed.passed, followed.again) == ((), (), (), ())
    assert followed.trail == walked.trail


@settings(deadline=None)
@given(st.data(), st.booleans())
def test_no_answer_that_exists_is_lost_and_none_is_given_to_another_question(data: st.DataObject, told: bool) -> None:
    shelf = data.draw(shelves())
    old, new = shelf.library, data.draw(edited(shelf)).library
    assume(one_sign_each(old, new))
    walked = wander(old, data)
    said = Counter(given_in(walked))
    earlier = [old] if told else []
    asked_in = {name: {step.title for step in each.steps} for name, each in old.articles.items()}
    followed = follow(new, walked.trail, NOTHING_KNOWN, *earlier)

    while isinstance(followed.standing.at, Step):
        at = followed.standing.at
        kept = Counter(given_in(followed.standing))
        assert kept <= said, "an answer that nobody gave"
        # What has moved to an article where this walk has not been is found by the words of the old library alone.
        here = told or at.title in asked_in.get(at.article, ())
        open_now = {(at.title, answer.text) for answer in at.answers} if here else set()
        assert not open_now & set(said - kept), "asked again although the answer was given and exists"
        # Go on by answering what is asked, with an answer that was not given before.
        answer = data.draw(st.sampled_from(at.answers))
        said[at.title, answer.text] += 1
        followed = follow(new, f"{followed.trail}-{answer.token}", NOTHING_KNOWN, *earlier)
    exist = {(step.title, answer.text) for step in household(new) for answer in step.answers}
    left = {(each.question, each.answer) for each in followed.waiting}
    assert left <= exist


@settings(deadline=None)
@given(st.data())
def test_what_is_called_gone_is_gone_and_everything_has_its_place(data: st.DataObject) -> None:
    shelf = data.draw(shelves())
    old, new = shelf.library, data.draw(edited(shelf)).library
    assume(one_sign_each(old, new))
    walked = wander(old, data)
    followed = follow(new, walked.trail, NOTHING_KNOWN, old)
    exist = {(step.title, answer.text) for step in household(new) for answer in step.answers}
    said = dict(enumerate([("", ""), *given_in(walked)]))

    assert {(each.question, each.answer) for each in followed.gone} == {said[each.number] for each in followed.gone}, (
        "told in the words in which they were given"
    )
    assert not {said[each.number] for each in followed.gone} & exist
    numbers = [*followed.places, *(each.number for each in (*followed.waiting, *followed.gone))]
    assert {number for number in numbers if number >= 0} == set(range(len(walked.trail.split("-"))))


@settings(deadline=None)
@given(st.data(), st.booleans())
def test_a_try_counts_towards_its_limit_wherever_its_step_has_gone(data: st.DataObject, told: bool) -> None:
    shelf = data.draw(shelves(limited=True))
    old, new = shelf.library, data.draw(edited(shelf, limited=True)).library
    assume(one_sign_each(old, new))
    walked = wander(old, data)
    made = sum(each.step.limit is not None for each in walked.taken)
    before = _counted_before(walked)
    earlier = [old] if told else []
    followed = follow(new, walked.trail, NOTHING_KNOWN, *earlier)

    for _ in range(20):
        at = followed.standing.at
        if isinstance(at, End):
            return
        if at.limit is not None:
            assert made + before < at.limit.at_most
        if at.fact == "resets-tried":
            # Whoever is asked once more counts all of it; whoever is asked for the first time has tried nothing before.
            answer = next(each for each in at.answers if each.fact_value == str(min(0 if told else before + made, 3)))
        else:
            answer = data.draw(st.sampled_from(at.answers))
            made += at.limit is not None
        followed = follow(new, f"{followed.trail}-{answer.token}", NOTHING_KNOWN, *earlier)


def _counted_before(walked: Standing) -> int:
    counted = [int(each.answer.fact_value or 0) for each in walked.taken if each.step.fact == "resets-tried"]
    return counted[-1] if counted else 0


def test_a_step_that_was_put_in_is_asked_and_what_came_after_is_kept() -> None:
    old = SHELF.library
    trail = trail_of(old, "Yes", "Warm")
    new = Shelf((FIRST[0], Written("Is it new?", ("Aye", "Partly", "Nay")), *FIRST[1:])).library
    asked = follow(new, trail)
    assert asked.standing.at.title == "Is it new?"
    assert [each.answer for each in asked.waiting] == ["Warm"]

    aye = next(each.token for each in asked.standing.at.answers if each.text == "Aye")
    onward = follow(new, f"{asked.trail}-{aye}")
    assert onward.standing.at.title == "Is it loud?"
    assert (onward.waiting, onward.gone) == ((), ())


def test_a_reworded_answer_is_told_where_it_stood_and_those_after_it_are_kept() -> None:
    trail = trail_of(SHELF.library, "Yes", "Warm", "Loud")
    new = Shelf((FIRST[0], Written("Is it warm?", ("Hot", "Tepid", "Cold")), FIRST[2])).library
    asked = follow(new, trail)
    assert asked.standing.at.title == "Is it warm?"
    assert gone_words(asked.gone) == ("One answer, given after “Is it on?”, is no longer in our guidance.",)

    hot = asked.standing.at.answers[0].token
    assert follow(new, f"{asked.trail}-{hot}").standing.at.title == "Call us"


def test_the_words_of_what_is_gone_come_from_the_library_that_had_them() -> None:
    old = SHELF.library
    new = Shelf((FIRST[0], FIRST[2])).library
    asked = follow(new, trail_of(old, "Yes", "Warm", "Loud"), NOTHING_KNOWN, old)
    assert asked.standing.at.title == "Call us"
    assert gone_words(asked.gone) == ("“Warm” to “Is it warm?” is no longer in our guidance.",)


def test_an_article_that_was_split_loses_nothing() -> None:
    trail = trail_of(SHELF.library, "Yes", "Warm")
    followed = follow(Shelf(FIRST[:1], FIRST[1:]).library, trail)
    assert followed.standing.at.title == "Is it loud?"
    assert followed.gone == ()


RESET = Written("Press reset", ("Runs", "Stopped again", "Cannot"), at_most=1)


def test_a_try_whose_step_is_gone_still_counts_where_the_old_library_is_known() -> None:
    old = Shelf((FIRST[0], Written("Press it", RESET.answers, at_most=2), FIRST[1])).library
    trail = trail_of(old, "Yes", "None", "Stopped again")
    new = Shelf((FIRST[0], RESET, FIRST[1])).library
    followed = follow(new, trail, NOTHING_KNOWN, old)
    assert followed.standing.at.title == "Call us"
    assert gone_words(followed.gone) == (
        "“Stopped again” to “Press it” is no longer in our guidance. It still counts as a try.",
    )


def test_where_nobody_knows_what_is_gone_the_tries_are_counted_again() -> None:
    old = Shelf((FIRST[0], Written("Press it", RESET.answers, at_most=2), FIRST[1])).library
    trail = trail_of(old, "Yes", "None", "Stopped again")
    followed = follow(Shelf((FIRST[0], RESET, FIRST[1])).library, trail)
    assert followed.standing.at.title == "How many times was it reset before?"


NEW_DANGER = DANGER.replace("(#is-an-alarm-sounding)", "(#is-there-smoke)").replace(
    "### Is an alarm",
    "### Is there smoke?\n\n- [Yes](ends.md#get-out)\n- [No](#is-an-alarm-sounding)\n\n### Is an alarm",
)


@pytest.mark.parametrize("danger", [NEW_DANGER, DANGER.replace("smell gas", "smell gas or oil")])
def test_a_no_to_other_danger_questions_is_no_no(danger: str) -> None:
    new = Shelf(FIRST, danger=danger).library
    asked = follow(new, trail_of(SHELF.library, "Yes"))
    assert asked.standing.at.article == "danger"
    assert gone_words(asked.gone) == ("The danger questions have changed since then.",)
    assert follow(new, f"{none_of(new)}-{asked.trail}").standing.at.title == "Is it warm?"


def test_a_danger_question_that_was_put_in_is_not_passed_by_the_answers_around_it() -> None:
    old, new = SHELF.library, Shelf(FIRST, danger=NEW_DANGER).library
    noes = [step.answers[-1].token for step in household(old) if step.article == "danger"]
    yes = old.articles["first"].steps[0].answers[0].token
    asked = follow(new, "-".join([*noes, yes]))
    assert asked.standing.at.title == "Is there smoke?"
    no = asked.standing.at.answers[-1].token
    assert follow(new, f"{asked.trail}-{no}").standing.at.title == "Is it warm?"


def test_what_is_known_of_the_home_by_now_is_passed_over() -> None:
    followed = follow(SHELF.library, trail_of(SHELF.library, "Yes"), Known({"system": "sealed"}))
    assert followed.standing.at.title == "Is it warm?"

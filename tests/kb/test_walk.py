import pytest

from kb.article import Audience, End, Step
from kb.facts import NOTHING_KNOWN, GaugeMarks, Known
from kb.guide import NONE_OF_THESE, By, Lost, Trouble, answer_to
from kb.library import Library
from kb.walk import LONGEST, Standing, walk
from tests.builders import library

WONT_LIGHT = """
# It will not light

## For the household

{fact=system}
### Is there a gauge?

- [Yes](#what-does-the-gauge-say){is=sealed}
- [No](ends.md#call-us){is=vented}
- [I am not sure](#reset-it)

{reading=pressure}
### What does the gauge say?

- [Below](ends.md#call-us){below=low}
- [Between](#reset-it){from=low to=high}
- [Above](ends.md#call-us){above=high}
- [I cannot find it](ends.md#call-us)

{tries=reset at-most=2 then="ends.md#call-us"}
### Reset it

- [It runs](ends.md#it-works)
- [It stopped again](#is-there-a-gauge)

## For the engineer

### Measure it

- [Good](ends.md#job-closed)
"""


@pytest.fixture
def books() -> Library:
    return library(wont_light=WONT_LIGHT)


def stand(books: Library, *answers: str, known: Known = NOTHING_KNOWN) -> Standing:
    """Give answers by their words, or `none` to the danger questions, and stand where they lead."""
    start = books.articles["wont-light"].first(Audience.HOUSEHOLD)
    assert start is not None
    standing = walk(books, start, "", known)
    for words in answers:
        if words == NONE_OF_THESE:
            standing = walk(books, start, words, known)
            continue
        assert isinstance(standing.at, Step), f"{words!r} was said at an end"
        answer = next(answer for answer in standing.at.answers if answer.text == words)
        standing = walk(books, start, standing.trail_with(answer), known)
    assert standing.trouble is None
    return standing


def title(standing: Standing) -> str:
    return standing.at.title


def test_a_walk_begins_with_the_danger_questions(books: Library) -> None:
    assert title(stand(books)) == "Can you smell gas?"


def test_none_of_these_answers_every_danger_question(books: Library) -> None:
    standing = stand(books, NONE_OF_THESE)

    assert title(standing) == "Is there a gauge?"
    assert [taken.by for taken in standing.taken] == [By.NONE_OF_THESE, By.NONE_OF_THESE]
    assert standing.trail == NONE_OF_THESE


def test_danger_questions_can_be_answered_one_by_one(books: Library) -> None:
    assert title(stand(books, "No", "No")) == "Is there a gauge?"


def test_a_later_danger_question_can_be_answered_from_a_screen_that_shows_them_all(books: Library) -> None:
    danger = books.articles["danger"]
    start = books.articles["wont-light"].steps[0]

    standing = walk(books, start, danger.steps[1].answers[0].token)

    assert title(standing) == "Get out"


def test_a_known_fact_is_not_asked_for(books: Library) -> None:
    standing = stand(books, NONE_OF_THESE, known=Known({"system": "sealed"}))

    assert title(standing) == "What does the gauge say?"
    assert standing.taken[-1].by is By.FACT


def test_an_answer_about_the_home_is_known_from_then_on(books: Library) -> None:
    standing = stand(books, NONE_OF_THESE, "Yes", "Between", "None", "It stopped again")

    assert title(standing) == "What does the gauge say?"


def test_a_fact_nobody_could_tell_is_not_asked_for_again(books: Library) -> None:
    standing = stand(books, NONE_OF_THESE, "I am not sure", "None", "It stopped again")

    assert title(standing) == "Reset it"


def test_what_was_tried_before_is_asked_once_and_counted(books: Library) -> None:
    asked = stand(books, NONE_OF_THESE, "I am not sure")

    assert title(asked) == "How many times was it reset before?"
    assert title(stand(books, NONE_OF_THESE, "I am not sure", "Once")) == "Reset it"
    assert title(stand(books, NONE_OF_THESE, "I am not sure", "Once", "It stopped again")) == "Call us"
    assert title(stand(books, NONE_OF_THESE, "I am not sure", "Twice")) == "Call us"


def test_a_limit_counts_over_the_whole_walk(books: Library) -> None:
    once = [NONE_OF_THESE, "I am not sure", "None", "It stopped again"]

    assert title(stand(books, *once)) == "Reset it"
    assert title(stand(books, *once, "It stopped again")) == "Call us"


def test_the_appliances_own_lower_limit_wins(books: Library) -> None:
    known = Known(limits={"reset": 1})

    assert title(stand(books, NONE_OF_THESE, "I am not sure", "Once", known=known)) == "Call us"


def test_the_appliances_own_higher_limit_does_not(books: Library) -> None:
    known = Known(limits={"reset": 3})

    assert title(stand(books, NONE_OF_THESE, "I am not sure", "Twice", known=known)) == "Call us"


@pytest.mark.parametrize(
    ("reading", "answer"), [(0.0, "Below"), (0.79, "Below"), (0.8, "Between"), (1.8, "Between"), (1.81, "Above")]
)
def test_a_typed_reading_finds_its_answer(books: Library, reading: float, answer: str) -> None:
    step = books.articles["wont-light"].steps[1]

    found = answer_to(step, reading, Known())

    assert found is not None
    assert found.text == answer


def test_a_home_has_its_own_marks(books: Library) -> None:
    step = books.articles["wont-light"].steps[1]

    found = answer_to(step, 1.0, Known(marks=GaugeMarks(1.2, 1.5, 2.0)))

    assert found is not None
    assert found.text == "Below"


@pytest.mark.parametrize("reading", [-0.1, 4.1, 99.0])
def test_a_figure_no_gauge_shows_has_no_answer(books: Library, reading: float) -> None:
    assert answer_to(books.articles["wont-light"].steps[1], reading, Known()) is None


def test_a_reading_is_part_of_the_trail(books: Library) -> None:
    gauge = stand(books, NONE_OF_THESE, "Yes")
    assert isinstance(gauge.at, Step)
    trail = gauge.trail_with(gauge.at.answers[1], 1.3)

    standing = walk(books, books.articles["wont-light"].steps[0], trail)

    assert trail.endswith("~1.3")
    assert standing.taken[-1].reading == 1.3
    assert standing.trail == trail


def test_a_reading_that_is_not_its_answers_is_told(books: Library) -> None:
    gauge = stand(books, NONE_OF_THESE, "Yes")
    assert isinstance(gauge.at, Step)

    standing = walk(books, books.articles["wont-light"].steps[0], gauge.trail_with(gauge.at.answers[1], 0.3))

    assert standing.trouble is Trouble.READING_ELSEWHERE
    assert standing.at == gauge.at


@pytest.mark.parametrize(
    ("trail", "trouble"),
    [
        ("zzz", Trouble.ANSWER_GONE),
        ("none-none", Trouble.ANSWER_GONE),
        ("none-zz9", Trouble.ANSWER_GONE),
        ("-", Trouble.GARBLED),
        ("none--", Trouble.GARBLED),
        ("\x00", Trouble.GARBLED),
        ("none-‮abc", Trouble.GARBLED),
        ("none-abc~x", Trouble.GARBLED),
        ("none-abc~1.2.3", Trouble.GARBLED),
        ("<script>", Trouble.GARBLED),
        ("-".join(["none"] * (LONGEST + 1)), Trouble.TOO_LONG),
    ],
)
def test_whatever_a_trail_says_comes_back_as_a_value(books: Library, trail: str, trouble: Trouble) -> None:
    standing = walk(books, books.articles["wont-light"].steps[0], trail)

    assert standing.trouble is trouble


def test_a_trail_that_breaks_keeps_the_answers_before_it(books: Library) -> None:
    standing = walk(books, books.articles["wont-light"].steps[0], "none-zz9")

    assert title(standing) == "Is there a gauge?"
    assert standing.trail == NONE_OF_THESE


def test_a_trail_may_not_go_on_after_its_end(books: Library) -> None:
    ended = stand(books, NONE_OF_THESE, "No")

    standing = walk(books, books.articles["wont-light"].steps[0], ended.trail + "-abc")

    assert standing.trouble is Trouble.PAST_THE_END
    assert isinstance(standing.at, End)


def test_every_answer_can_be_gone_back_to(books: Library) -> None:
    standing = stand(books, NONE_OF_THESE, "I am not sure", "None")

    backs = [standing.trail_before(place) for place, taken in enumerate(standing.taken) if taken.written]

    assert backs == ["", "none", standing.trail.rsplit("-", 1)[0]]


def test_the_same_answer_given_twice_is_gone_back_to_where_it_was_given() -> None:
    text = (
        '# Loop\n\n## For the household\n\n{tries=reset at-most=2 then="ends.md#call-us"}\n### Reset it\n\n'
        "- [It stopped again](#reset-it)\n"
    )
    books = library(loop=text)
    start = books.articles["loop"].steps[0]
    none_before = books.articles["tried"].steps[0].answers[0].token

    again = f"none-{none_before}-{start.answers[0].token}"
    standing = walk(books, start, f"{again}-{start.answers[0].token}")

    assert standing.at.title == "Call us"
    assert standing.trail_before(len(standing.taken) - 1) == again


def test_a_household_is_never_led_to_an_engineers_step() -> None:
    books = library(
        broken="# Broken\n\n## For the household\n\n### Go on\n\n- [Yes](#hidden)\n\n"
        "## For the engineer\n\n### Hidden\n\n- [Done](ends.md#job-closed)\n"
    )
    start = books.articles["broken"].steps[0]

    with pytest.raises(Lost):
        walk(books, start, f"none-{start.answers[0].token}")


def test_an_engineer_walks_the_engineers_part(books: Library) -> None:
    start = books.articles["wont-light"].first(Audience.ENGINEER)
    assert start is not None

    standing = walk(books, start, f"none-{start.answers[0].token}", audience=Audience.ENGINEER)

    assert title(standing) == "Job closed"

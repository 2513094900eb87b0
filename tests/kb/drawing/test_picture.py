from datetime import date

import pytest

from kb.article import Audience, Bounds
from kb.drawing import words
from kb.drawing.description import described
from kb.drawing.picture import Picture, Sort, Way, picture_of
from kb.library import Library
from kb.rules import check
from tests.builders import library

HOUSEHOLD, ENGINEER = Audience.HOUSEHOLD, Audience.ENGINEER
GAUGE = """
# The gauge is low

## For the household

{reading=pressure}
### What does it say?

Look at [the way it works](noise.md).

> Keep clear of steam.

- [Low](#top-it-up){below=low}
- [Right](ends.md#it-works){from=low to=high}
- [High](ends.md#it-works){above=high}
- [Gone](nowhere.md)
- [Noisy](noise.md#is-it-loud)
- [Smelly](ends.md#get-out)

{tries=reset at-most=2 then="ends.md#call-us"}
### Top it up

- [Again](#top-it-up)
- [It is up](#what-does-it-say)
- [I gave up](#what-does-it-say)

### Never asked

- [So](ends.md#it-works)

## For the engineer

{fact=system}
### Weigh the loss

- [Sealed](ends.md#job-closed){is=sealed}
- [Vented](ends.md#job-closed){is=vented}
"""
NOISE = """
# A noise

## For the household

### Is it loud?

- [Yes](gauge.md#top-it-up)
- [No](ends.md#it-works)
"""


@pytest.fixture
def books() -> Library:
    return library(gauge=GAUGE, noise=NOISE)


@pytest.fixture
def picture(books: Library) -> Picture:
    return picture_of(books.articles["gauge"], books, HOUSEHOLD, check(books, date(2026, 11, 25)))


def test_each_audience_sees_its_own_steps(books: Library) -> None:
    def titles(audience: Audience) -> list[str]:
        return [box.title for box in picture_of(books.articles["gauge"], books, audience).boxes]

    assert titles(HOUSEHOLD) == ["What does it say?", "Top it up", "Never asked"]
    assert titles(ENGINEER) == ["Weigh the loss"]


def test_answers_that_lead_to_the_same_step_take_one_way(picture: Picture) -> None:
    assert picture.ways == (
        Way("what-does-it-say", "top-it-up", ("Low [below low]",)),
        Way("top-it-up", "what-does-it-say", ("It is up", "I gave up")),
    )


def test_ways_out_say_where_they_lead(picture: Picture) -> None:
    ways_out = [(way.sort, way.title, way.note, way.answers) for way in picture.boxes[0].exits]

    assert ways_out == [
        (Sort.END, "It works", "Advice only · the firm", ("Right [from low to high]", "High [above high]")),
        (Sort.NOWHERE, "Leads nowhere", "nowhere.md", ("Gone",)),
        (Sort.ARTICLE, "A noise", "noise.md, at “Is it loud?”", ("Noisy",)),
        (Sort.DANGER, "Get out", "Leave at once · the gas line", ("Smelly",)),
    ]


def test_a_limit_is_told_and_so_is_where_it_leads(picture: Picture) -> None:
    box = picture.boxes[1]

    assert box.notes == ("Tries reset, twice at most", "Also reached from noise")
    assert [(way.sort, way.title, way.used_up) for way in box.exits] == [
        (Sort.AGAIN, "This step again", False),
        (Sort.END, "Call us", True),
    ]


def test_a_box_says_what_its_step_says(picture: Picture) -> None:
    assert picture.boxes[0].text == ("Look at the way it works.", "Caution: Keep clear of steam.")
    assert picture.boxes[0].notes == ("Reads the pressure", "Its words link to noise.md")


def test_a_fact_is_told_with_the_values_of_its_answers(books: Library) -> None:
    (box,) = picture_of(books.articles["gauge"], books, ENGINEER).boxes

    assert box.notes == ("Asks for the fact system",)
    assert box.exits[0].answers == ("Sealed [is sealed]", "Vented [is vented]")


def test_a_step_that_nothing_leads_to_is_marked(picture: Picture) -> None:
    assert [box.unreachable for box in picture.boxes] == [False, False, True]
    assert any(mark.endswith(": unreachable-step") for mark in picture.boxes[2].marks)
    assert "Nothing leads to “Never asked”." in described(picture)


def test_each_finding_stands_at_its_step_or_above_them_all(picture: Picture) -> None:
    line = 6 + GAUGE.splitlines().index("- [Gone](nowhere.md)") + 1

    assert f"Line {line + 1}: unknown-link" in picture.boxes[0].marks
    assert "Line 1: causes-missing" in picture.marks


def test_the_alternative_text_counts_what_is_to_be_seen(books: Library) -> None:
    whole = described(picture_of(books.articles["noise"], books, HOUSEHOLD))

    assert whole == ("A tree of 1 step, which begins with “Is it loud?”. It leads to 1 end and 1 other article.")
    assert described(picture_of(books.articles["noise"], books, ENGINEER)) == "There are no steps."


@pytest.mark.parametrize(
    ("bounds", "said"),
    [
        (None, ""),
        (Bounds(None, False, "low", False), "below low"),
        (Bounds(0.5, True, "low", True), "from 0.5 to low"),
        (Bounds("high", False, None, False), "above high"),
    ],
)
def test_bounds_are_said_as_the_notation_writes_them(bounds: Bounds | None, said: str) -> None:
    assert words.bounds(bounds) == said

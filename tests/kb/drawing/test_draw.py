"""Whole pictures of the articles that are served."""

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from kb.article import Audience
from kb.drawing import draw
from kb.drawing.layout import Point
from kb.drawing.letters import width
from kb.drawing.setting import BOX
from kb.drawing.svg import INK, PAPER, SHEET, SOFT
from kb.library import Library, load
from tests.builders import library
from tests.kb.drawing.test_layout import along

SVG = "{http://www.w3.org/2000/svg}"
ROOT = Path(__file__).parents[3]


@pytest.fixture(scope="module")
def books() -> Library:
    return load(ROOT / "articles/en")


def drawn(books: Library, article: str, audience: Audience = Audience.HOUSEHOLD, embed: bool = False):
    return ElementTree.fromstring(draw(books.articles[article], books, audience, embed=embed))


@pytest.mark.parametrize("article", ["no-hot-water", "frost", "read-the-gauge", "carbon-monoxide"])
@pytest.mark.parametrize("audience", Audience)
def test_no_words_leave_the_picture(books: Library, article: str, audience: Audience) -> None:
    root = drawn(books, article, audience)
    right = float(root.attrib["viewBox"].split()[2]) - 24

    for text in root.iter(f"{SVG}text"):
        assert text.text
        wide = width(text.text, float(text.attrib["font-size"]), "font-weight" in text.attrib)
        assert float(text.attrib["x"]) + wide <= right, text.text


@pytest.mark.parametrize("article", ["no-hot-water", "frost", "low-pressure"])
def test_no_line_goes_through_a_step_between_its_own_two(books: Library, article: str) -> None:
    root = drawn(books, article)
    steps = [
        [float(rect.attrib[name]) for name in ("x", "y", "width", "height")]
        for rect in root.iter(f"{SVG}rect")
        if rect.attrib.get("width") == str(BOX)
    ]
    ways = [path.attrib["d"] for path in root.iter(f"{SVG}path") if path.attrib.get("class") == "way"]

    assert len(steps) == sum(step.audience is Audience.HOUSEHOLD for step in books.articles[article].steps)
    for way in ways:
        corners = [Point(float(x), float(y)) for x, y in re.findall(r"(-?[\d.]+) (-?[\d.]+)", way)]
        for x, y, wide, high in steps:
            if x <= corners[0].x <= x + wide and abs(corners[0].y - y - high) < 3:
                continue  # it leaves this step
            if x <= corners[-1].x <= x + wide and abs(corners[-1].y - y) < 15:
                continue  # its arrow meets this step
            assert not any(x + 3 < at.x < x + wide - 3 and y + 3 < at.y < y + high - 3 for at in along(corners))


def test_every_step_answer_and_end_is_there_in_words(books: Library) -> None:
    article = books.articles["low-pressure"]
    said = " ".join(text.text or "" for text in drawn(books, "low-pressure").iter(f"{SVG}text"))
    squeezed = said.replace(" ", "")

    for step in article.steps:
        if step.audience is Audience.HOUSEHOLD:
            assert step.title.replace(" ", "") in squeezed
            assert all(answer.text.replace(" ", "") in squeezed for answer in step.answers)


def test_a_picture_has_a_name_and_a_text_for_whoever_does_not_see_it(books: Library) -> None:
    root = drawn(books, "read-the-gauge")

    names = {child.attrib["id"]: child.text for child in root if child.tag in (f"{SVG}title", f"{SVG}desc")}
    assert root.attrib["role"] == "img"
    assert root.attrib["aria-labelledby"].split() == list(names)
    assert names["tree-title"] == "How to read the pressure gauge: the household’s part"
    assert "A tree of 5 steps" in str(names["tree-desc"])


def test_a_picture_that_stands_by_itself_brings_its_letters_and_another_has_no_style(books: Library) -> None:
    alone, on_a_page = (
        draw(books.articles["noise"], books, Audience.HOUSEHOLD, embed=embed) for embed in (True, False)
    )

    assert alone.count("@font-face") == 2
    assert "style" not in on_a_page
    assert "http" not in alone.replace("http://www.w3.org/2000/svg", "")


def test_what_an_author_writes_is_text_and_never_markup() -> None:
    books = library(odd='\n# Odd\n\n## For the household\n\n### Is 1 < 2 & "so"?\n\n- [Yes > no](ends.md#it-works)\n')

    root = ElementTree.fromstring(draw(books.articles["odd"], books, Audience.HOUSEHOLD))

    assert 'Is 1 < 2 & "so"?' in [text.text for text in root.iter(f"{SVG}text")]


def test_danger_has_the_colour_of_danger_and_nothing_else_has_a_colour(books: Library) -> None:
    # ISO 3864-4, as screens show it: red for danger, yellow for a warning.
    colours = {
        article: set(
            re.findall(r"#[0-9a-fA-F]{6}", draw(books.articles[article], books, Audience.HOUSEHOLD, embed=False))
        )
        for article in ("gas-smell", "preheat-on-or-off")
    }
    calm = {PAPER, SHEET, INK, SOFT}

    assert colours["gas-smell"] - calm == {"#9B2423", "#ffffff"}
    assert colours["preheat-on-or-off"] - calm <= {"#F9A900"}


def test_an_article_without_such_a_part_is_an_empty_picture(books: Library) -> None:
    assert "There are no steps." in draw(books.articles["ends"], books, Audience.HOUSEHOLD)


def test_a_picture_has_the_colours_of_the_pages() -> None:
    sheet = (ROOT / "server/web/static/style.css").read_text(encoding="utf-8")

    assert all(f": {colour};" in sheet for colour in (PAPER, SHEET, INK, SOFT))

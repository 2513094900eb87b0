import re
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from kb.figures import figures
from kb.figures.drawing import drawn
from kb.figures.figure import Figure
from kb.figures.rows import Caller, CallsAlike, CausesAlike, Counted, JobsAlike, PartsAlike, StopsAlike
from kb.figures.weeks import Span, Week

SVG = "{http://www.w3.org/2000/svg}"
SPAN = Span(Week(105_700), Week(105_711))
AWKWARD = "Ice & <sludge> $x^2$ “both”"
COUNTED = Counted(
    tuple(CallsAlike(week, AWKWARD, 40, 20, 20, 2, 39, -2.0) for week in SPAN.weeks),
    (StopsAlike(AWKWARD, 3, 4),),
    tuple(JobsAlike(week, 40, 40, 30, 40, 2000) for week in SPAN.weeks),
    (PartsAlike(AWKWARD, 9, 3, 1),),
    (CausesAlike(AWKWARD, "dirt", AWKWARD, 31), CausesAlike("dirt", "", "a sag", 7)),
    (Caller("KM3EQ-PKFPJ-TCQ9A", "Any 24", 4),),
    40,
    (3, 2, 1, 0, 0),
    50,
)
PICTURES = figures(COUNTED, SPAN, str)


def words(svg: str) -> str:
    return " ".join("".join(each.itertext()) for each in ElementTree.fromstring(svg).iter(f"{SVG}text"))


@pytest.mark.parametrize("figure", PICTURES, ids=lambda each: each.name)
def test_a_picture_is_told_to_those_who_cannot_see_it(figure: Figure) -> None:
    root = ElementTree.fromstring(drawn(figure))
    named = {each.get("id"): each.text for each in root if each.get("id")}

    assert root.get("role") == "img"
    assert [named[id] for id in str(root.get("aria-labelledby")).split()] == [figure.title, figure.description]


@pytest.mark.parametrize("figure", PICTURES, ids=lambda each: each.name)
def test_a_picture_has_no_styles_that_a_page_would_forbid(figure: Figure) -> None:
    for each in ElementTree.fromstring(drawn(figure)).iter():
        assert each.get("style") is None
        assert each.tag not in (f"{SVG}style", f"{SVG}script", f"{SVG}metadata")


def test_no_two_pictures_share_an_id_and_every_reference_leads_somewhere() -> None:
    page = "".join(map(drawn, PICTURES))
    ids = re.findall(r'\bid="([^"]+)"', page)

    assert len(ids) == len(set(ids))
    assert set(re.findall(r"url\(#([^)]+)\)", page)) <= set(ids)
    assert page.count("url(#") > 2


def test_one_ink_and_its_shades_are_all_that_is_used() -> None:
    page = "".join(map(drawn, PICTURES))

    assert set(re.findall(r"#[0-9a-f]{6}\b", page)) <= {"#17323a", "#4d626a", "#b9b3a4", "#fffdf8"}


def test_words_are_words_and_never_formulas() -> None:
    parts = next(each for each in PICTURES if each.name == "parts")

    assert AWKWARD in words(drawn(parts))


def test_frost_is_named_beside_the_marks() -> None:
    assert "0 °C or colder outdoors" in words(drawn(PICTURES[0]))


def test_the_same_series_is_the_same_picture_whoever_draws() -> None:
    once = [drawn(each) for each in PICTURES]
    drawn.cache_clear()

    with ThreadPoolExecutor(4) as four:
        assert list(four.map(drawn, PICTURES)) == once


def test_another_series_is_another_picture() -> None:
    parts = next(each for each in PICTURES if each.name == "parts")
    fewer = replace(parts, chart=replace(parts.chart, bars=(replace(parts.chart.bars[0], value=8, words="3 of 8"),)))

    assert drawn(fewer) != drawn(parts)


def test_few_cases_are_drawn_as_rings() -> None:
    """A ring is the paper's colour inside; a dot is ink."""
    many, few = (
        figures(Counted(tuple(CallsAlike(week, "a", calls, 9, soon=calls) for week in SPAN.weeks)), SPAN, str)[2]
        for calls in (30, 29)
    )
    rings = [drawn(each).count('fill="#fffdf8"') for each in (many, few)]

    assert rings == [0, len(SPAN.weeks)]


@pytest.mark.parametrize("figure", PICTURES, ids=lambda each: each.name)
def test_no_word_leaves_the_paper(figure: Figure) -> None:
    from kb.drawing.letters import width

    root = ElementTree.fromstring(drawn(figure))
    _, _, wide, high = map(float, str(root.get("viewBox")).split())
    for each in root.iter(f"{SVG}text"):
        size, strong = float(str(each.get("font-size")).removesuffix("px")), each.get("font-weight") == "700"
        long = width("".join(each.itertext()), size, strong)
        before = {"start": 0, "middle": 0.5, "end": 1}[each.get("text-anchor", "start")]
        start = float(str(each.get("x"))) - long * before
        assert start >= -1.5
        assert start + long <= wide + 1.5
        assert 0 < float(str(each.get("y"))) <= high


def test_nothing_counted_is_no_picture_and_says_so() -> None:
    for figure in figures(Counted(), SPAN, str):
        assert figure.empty
        assert figure.behind == "There is nothing to count yet."
        assert figure.says

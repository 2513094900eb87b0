"""Words and codes together, on the articles and the ranges of the demo."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from kb.appliance import Display
from kb.article import Audience
from kb.codes import Safety
from kb.inquiry import Inquiry
from kb.library import Library, load
from kb.ranges import load_ranges
from kb.search import build

ROOT = Path(__file__).parents[2]
RANGES, _ = load_ranges(ROOT / "demo" / "ranges")
CODES = [(family, code) for family in RANGES.values() for code in family.codes]


@pytest.fixture(scope="module")
def library() -> Library:
    return load(ROOT / "articles" / "en")


@pytest.fixture(scope="module")
def inquiry(library) -> Inquiry:
    return Inquiry(library, build(library), RANGES)


@pytest.mark.parametrize(
    ("words", "first"),
    [
        ("code 23 but there is a smell of gas", "gas-smell"),
        ("code 23 and water is pouring out of it", "water-leak"),
        ("code 23, radiators cold", "cold-radiators"),
    ],
)
def test_words_outvote_a_code_that_says_otherwise(inquiry, words, first):
    told = inquiry.ask(words, range="marlpit-c")
    assert told.articles[0] == first
    assert "low-pressure" in told.articles[1:4]
    assert told.shown_for("low-pressure") == ("23",)


def test_a_danger_in_the_words_comes_first_whatever_the_code(inquiry):
    assert inquiry.ask("fault 04, smell of gas", range="marlpit-c").danger == ("gas-smell",)
    assert inquiry.ask("smell of gas", "04", "marlpit-c").danger == ("gas-smell",)


def test_a_danger_that_only_the_display_knows_of_comes_first(inquiry):
    told = inquiry.ask("", "fumes sensd in room", "thornlea")
    assert (told.danger, told.articles) == (("carbon-monoxide",), ("carbon-monoxide",))


def test_of_two_codes_in_the_words_the_safer_is_gone_by(inquiry):
    told = inquiry.ask("first code 12 and now code 74", range="marlpit-c")
    assert told.articles == ()
    assert told.said.stop == (
        "If it shows 74, a Marlpit C needs an engineer. Do not reset. Call us today.",
        "It may also show 12. Until you are sure, do not reset.",
    )


def test_a_code_alone_leads_to_its_article_alone(inquiry):
    assert inquiry.ask("the code is twelve", range="marlpit-c").articles == ("ignition-failure",)


@pytest.mark.parametrize("code", ["QQ99", "Z", "£"])
def test_an_unknown_code_is_told_nothing_of(inquiry, code):
    told = inquiry.ask("", code, "sedgebrook")
    assert (told.said.all, told.articles, told.weighed) == ((), (), ())


def test_an_unknown_code_leads_on_by_its_words(inquiry):
    assert inquiry.ask("", "radiators cold", "marlpit-c").articles[0] == "cold-radiators"


def test_words_of_a_panel_are_known_where_somebody_speaks_of_a_display(inquiry):
    assert inquiry.ask("the screen says oil preheater cold", range="thornlea").weighed
    assert not inquiry.ask("water under the boiler", range="thornlea").weighed


def test_a_homes_own_range_is_asked_alone_and_an_unknown_home_all(inquiry):
    assert {each.reading.range.id for each in inquiry.ask("", "flame lost").weighed} == {"sedgebrook", "thornlea"}
    assert {each.reading.range.id for each in inquiry.ask("", "flame lost", "thornlea").weighed} == {"thornlea"}


@pytest.mark.parametrize(("family", "code"), CODES, ids=lambda each: getattr(each, "shown", ""))
def test_every_code_is_answered_and_none_for_an_engineer_leads_to_a_reset(inquiry, library, family, code):
    told = inquiry.ask("", code.shown, family.id)
    (own,) = [each for each in told.weighed if each.reading.code == code]
    assert own.plausible
    assert told.said.all or told.articles
    if own.safety in (Safety.DANGER, Safety.ENGINEER):
        assert any("Do not reset." in words for words in told.said.stop)
        steps = [step for each in told.articles for step in library.articles[each].steps]
        tried = {step.limit.action for step in steps if step.limit and step.audience is Audience.HOUSEHOLD}
        assert "reset" not in tried
    elif own.safety is Safety.LOOK:
        assert code.category in told.articles


@pytest.mark.parametrize("typed", [f"{figure:02}" for figure in range(100)])
def test_no_two_figures_lead_to_a_reset_while_an_engineers_code_is_as_plausible(inquiry, library, typed):
    told = inquiry.ask("", typed, "marlpit-c")
    if any(each.plausible and each.safety <= Safety.ENGINEER for each in told.weighed):
        steps = [step for each in told.articles for step in library.articles[each].steps]
        limits = [step.limit for step in steps if step.limit and step.audience is Audience.HOUSEHOLD]
        assert not [limit for limit in limits if limit.action == "reset"]
        assert told.said.stop


def test_the_demo_has_a_range_of_each_display_that_is_read():
    assert {Display.SEVEN_SEGMENT, Display.TEXT} == {family.display for family in RANGES.values()}


@given(st.text(max_size=40), st.text(max_size=40), st.sampled_from(["", *RANGES, "nothing"]))
@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_anything_may_be_asked(inquiry, words, code, range):
    told = inquiry.ask(words, code, range)
    assert len(set(told.articles)) == len(told.articles)

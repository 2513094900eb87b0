import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kb.library import build as library_of
from kb.search import DANGERS, Finder, build, to_json
from tests.builders import DANGER, ENDS, article

TEXT = """
# {title}

Engineers measure the zirconium here.

## For the household

A word about the household's {words}.

### Look at the {words}

Read what the {words} says.

- [It is fine](ends.md#it-works)
- [It is not](ends.md#call-us)

## For the engineer

### Measure the vanadium

- [Done](ends.md#job-closed)
"""


def fault(id: str, title: str, words: str = "dial", **fields: str):
    return article(id, TEXT.format(title=title, words=words), category=id, **fields)


ARTICLES = (
    fault("low-pressure", "The gauge is too low", "needle", applies="{system: [sealed]}"),
    fault("ignition-failure", "The boiler does not light", "spark"),
    fault("flame-loss", "The boiler lights, then goes out", "flame"),
    fault("gas-smell", "A smell of gas", "nose", emergency="gas-smell"),
    fault("carbon-monoxide", "Carbon monoxide", "alarm", emergency="carbon-monoxide"),
    article("marmalade", TEXT.format(title="How to wind the marmalade clock", words="marmalade"), "how-to"),
    article("danger", DANGER, "danger"),
    article("ends", ENDS, "ends"),
)


@pytest.fixture(scope="module")
def finder() -> Finder:
    return build(library_of(ARTICLES))


def ids(finder: Finder, words: str, **facts: str) -> list[str]:
    return [hit.article for hit in finder.find(words, facts).hits]


@pytest.mark.parametrize(
    ("words", "first"),
    [
        ("presher on the boyler has droped", "low-pressure"),
        ("needle on nought", "low-pressure"),
        ("it wont lite, just clicks and wont ignite", "ignition-failure"),
        ("comes on for ten seconds then cuts out", "flame-loss"),
        ("boiler won't light and I smell gas", "gas-smell"),
        ("everyone here feels sick", "carbon-monoxide"),
    ],
)
def test_the_meaning_of_words_leads_to_the_article(finder, words, first):
    assert ids(finder, words)[0] == first


def test_an_article_without_signs_is_found_by_its_own_words(finder):
    assert ids(finder, "marmalade clock")[0] == "marmalade"


@pytest.mark.parametrize(
    "words",
    [
        "what time do you open on Saturday",
        "can you fit a bathroom",
        "the dishwasher is leaking",
        "blocked sink",
        "can I change my appointment",
        "thanks, all sorted",
        "qwertyuiop",
    ],
)
def test_what_is_none_of_ours_finds_nothing_rather_than_a_guess(finder, words):
    assert ids(finder, words) == []


def test_another_trade_named_beside_ours_hides_nothing(finder):
    assert ids(finder, "since the dishwasher was fitted the boiler won't light")[0] == "ignition-failure"


def test_a_danger_is_led_to_whatever_it_is_about(finder):
    assert "gas-smell" in ids(finder, "the dishwasher man says he can smell gas")


def test_what_comes_up_by_itself_is_never_a_hit(finder):
    assert not {"danger", "ends"} & set(ids(finder, "can you smell gas, is an alarm sounding, call us, carry on"))


@pytest.mark.parametrize("word", ["zirconium", "vanadium"])
def test_an_engineers_words_find_nothing(finder, word):
    assert ids(finder, word) == []


def test_an_article_that_a_known_fact_rules_out_is_not_offered(finder):
    assert "low-pressure" in ids(finder, "pressure low", system="sealed")
    assert "low-pressure" in ids(finder, "pressure low")
    assert "low-pressure" not in ids(finder, "pressure low", system="vented")


def test_hits_come_best_first_and_no_more_than_asked(finder):
    hits = finder.find("boiler won't light, goes out, pressure low, smell of gas", limit=3).hits
    assert len(hits) == 3
    assert [hit.score for hit in hits] == sorted((hit.score for hit in hits), reverse=True)


def test_an_article_low_among_many_keeps_the_points_its_words_earn():
    clocks = [
        article(f"clock-{number}", TEXT.format(title=f"How to wind clock {number}", words="clock"), "how-to")
        for number in range(30)
    ]
    finder = build(library_of((*ARTICLES, *clocks)))

    few, all_of_them = (finder.find("needle, clock, wind", limit=limit).hits for limit in (1, 99))

    assert few[0].article == "low-pressure"
    assert few[0] == all_of_them[0]


def test_what_looks_like_a_code_comes_along(finder):
    assert finder.find("it shows K17").code == ("K17",)


def test_the_printed_form_holds_danger_and_hits(finder):
    printed = json.loads(json.dumps(to_json(finder.find("smell of gas"))))
    assert printed["danger"] == ["gas-smell"]
    assert printed["hits"][0].keys() == {"article", "score"}
    assert printed["hits"][0]["article"] == "gas-smell"


ODD = [
    "",
    " ",
    "\0",
    "?",
    "***",
    "NOT",
    '"',
    "title:gas",
    "[a TO b]",
    "\u202e\u202d",
    "אין לי חימום",
    "😀" * 50,
    "\ud800",
]
"""Nothing, blanks, what other search languages command, right-to-left text, pictures, half a character."""


@pytest.mark.parametrize("words", ODD)
def test_anything_may_be_typed(finder, words):
    assert finder.find(words).danger == ()


def test_a_library_without_articles_finds_nothing():
    found = build(library_of(())).find("smell of gas")
    assert found.hits == ()
    assert found.danger == ("gas-smell",)


PIECES = ("no", "not", "gas", "won't", "hot", "water", "cold", "..", ",", "but", "3", "bar", "-5", "£", "smell", "a")


@settings(max_examples=150, deadline=None)
@given(st.text(max_size=300) | st.lists(st.sampled_from(PIECES)).map(" ".join))
def test_whatever_is_typed_the_answer_has_its_shape(finder, words):
    found = finder.find(words)
    assert set(found.danger) <= set(DANGERS)
    assert all(hit.score > 0 for hit in found.hits)
    assert len({hit.article for hit in found.hits}) == len(found.hits) <= 8


@pytest.mark.parametrize(
    "words", ["which boiler brand is best", "grant for a new boiler", "what does a heat pump cost"]
)
def test_buying_finds_nothing_though_it_names_a_boiler(finder, words):
    assert ids(finder, words) == []


def test_what_is_wrong_is_found_beside_buying(finder):
    assert ids(finder, "which boiler should I buy, this one won't light")[0] == "ignition-failure"


def test_a_fault_named_in_words_of_its_own_is_found_beside_another_trade(finder):
    assert "flame-loss" in ids(finder, "pilot goes out since the carpet fitter came")

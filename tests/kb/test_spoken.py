"""Spelt codes; the alphabet is held against the ITU's own list (Radio Regulations, appendix 14)."""

import string

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kb.spoken import CODE_WORDS, spelt_behind, spelt_in, spelt_out

ITU = [
    "Alfa",
    "Bravo",
    "Charlie",
    "Delta",
    "Echo",
    "Foxtrot",
    "Golf",
    "Hotel",
    "India",
    "Juliett",
    "Kilo",
    "Lima",
    "Mike",
    "November",
    "Oscar",
    "Papa",
    "Quebec",
    "Romeo",
    "Sierra",
    "Tango",
    "Uniform",
    "Victor",
    "Whiskey",
    "X-ray",
    "Yankee",
    "Zulu",
]


def test_every_word_of_the_radio_alphabet_is_its_letter():
    assert [spelt_out(word) for word in ITU] == list(string.ascii_uppercase)
    assert set(CODE_WORDS.values()) == set(string.ascii_uppercase)


@pytest.mark.parametrize(
    ("said", "code"),
    [
        ("k for kettle 11", "K11"),
        ("b for boiler one two", "B12"),
        ("kilo one one", "K11"),
        ("double four", "44"),
        ("triple two", "222"),
        ("m double six", "M66"),
        ("oh four", "04"),
        ("nought four", "04"),
        ("seventy four", "74"),
        ("twenty", "20"),
        ("twenty 3", "23"),
        ("nineteen", "19"),
        ("kilo one niner", "K19"),
        ("eff", "F"),
        ("zed nine", "Z9"),
        ("double you seven", "W7"),
        ("k dash one one", "K11"),
        ("one point two", "1.2"),
        ("It shows the code: K, 1, 1", "K11"),
        ("K four to", "K42"),
        ("k for one", "K41"),
    ],
)
def test_what_is_spelt_is_a_code(said, code):
    assert spelt_out(said) == code


@pytest.mark.parametrize("said", ["", "cold", "no hot water", "double", "triple double", "the code is", "sixty bar"])
def test_other_words_spell_nothing(said):
    assert spelt_out(said) is None


@pytest.mark.parametrize(
    ("said", "codes"),
    [
        ("it says k for kettle 11 and it is cold", ["K11"]),
        ("the man said kilo one nine", ["K19"]),
        ("since november 20 it is cold", []),
        ("ring mike at ten", []),
        ("k for kettle", []),
        ("no heat for 2 days", []),
    ],
)
def test_a_spelt_code_is_found_among_other_words(said, codes):
    assert list(spelt_in(said)) == codes


@pytest.mark.parametrize(
    ("said", "code"),
    [("is seventy four today", "74"), (" number double four", "44"), (" to be seen", ""), (" came up", ""), ("", "")],
)
def test_a_code_is_spelt_behind_its_hint_or_not_at_all(said, code):
    assert spelt_behind(said) == code


@given(st.text(max_size=200))
def test_any_text_may_be_looked_at(text):
    spelt = spelt_out(text)
    assert spelt is None or len(spelt) <= 3 * len(text)
    assert all(len(code) > 1 for code in spelt_in(text))
    assert len(spelt_behind(text)) <= 12

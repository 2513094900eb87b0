import pytest

from kb.search.spelling import Speller, sound
from kb.search.stems import stem

KNOWN = ["boiler", "pressure", "radiator", "thermostat", "ignition", "condensate", "monoxide", "light", "smell"]


def speller(*left_alone: str) -> Speller:
    return Speller(KNOWN, left_alone, stem)


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("boyler", "boiler"),
        ("bioler", "boiler"),
        ("presher", "pressure"),
        ("raditor", "radiator"),
        ("thermastat", "thermostat"),
        ("ignishun", "ignition"),
        ("minoxide", "monoxide"),
        ("smeell", "smell"),
    ],
)
def test_a_word_is_repaired_by_sound_or_by_a_letter(written, meant):
    assert speller().repair(written) == meant


@pytest.mark.parametrize("word", ["boilers", "lights", "lighting", "smelled"])
def test_forms_of_known_words_are_known(word):
    assert speller().repair(word) == word


@pytest.mark.parametrize("word", ["might", "night", "house", "gas", "x", "", "banana"])
def test_other_words_stay(word):
    assert speller().repair(word) == word


def test_an_ordinary_word_is_left_alone():
    assert speller().repair("small") == "smell"
    assert speller("small").repair("small") == "small"


def test_a_word_without_end_is_not_looked_at():
    assert speller().repair("boiler" * 2000) == "boiler" * 2000


def test_what_was_repaired_once_is_repaired_the_same_way_again():
    one = speller()
    assert [one.repair("boyler") for _ in range(2)] == ["boiler", "boiler"]


def test_words_that_sound_alike_have_one_sound():
    assert sound("phlame") == sound("flame")
    assert sound("flame") != sound("frame")

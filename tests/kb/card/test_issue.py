from random import Random

import pytest

from kb import keys
from kb.card import Style
from kb.card.press import press
from kb.card.sizes import FORMATS
from tests.builders import firm
from tests.kb.card.cards import PLACES, card, home, library, refusals

LINE = "Look at the small window on the front of it, and read to us what it says there."


def crowded(*lines, first=()):
    return library(*((f"fault-{n}", n, (first if n == 1 and first else lines)) for n in range(1, 5)))


def places_with(words):
    return home(places=dict.fromkeys(PLACES, words))


def test_where_there_is_room_every_place_stands_there():
    assert len(card().places) == 4


def test_where_room_is_short_the_least_needed_places_give_way():
    found = card(library_=crowded(LINE, LINE), home_=places_with(LINE * 3))
    assert [spot.id for spot in found.places] == ["gas-valve", "stop-tap"]


def test_a_place_described_at_length_gives_way_rather_than_keep_the_card_back():
    assert card(home_=places_with(LINE * 20)).places == ()


def test_a_fault_that_takes_more_than_its_share_is_named_alone():
    told = refusals(library_=crowded("Look.", "Ring.", first=(LINE * 9, LINE * 9)))
    assert list(told) == ["articles: fault-1, On the card"]
    assert "too long" in told["articles: fault-1, On the card"]


def test_a_long_name_wraps_rather_than_shrink_beyond_reading():
    name = "A name that goes on and on until nobody can find the telephone number any more"
    assert card(firm_=firm(name=name)).firm.name == name


@pytest.mark.parametrize("name", ["A WIDE NAME " * 9, "W" * 60], ids=["many words", "one long word"])
@pytest.mark.parametrize("size", FORMATS)
def test_a_firm_whose_name_cannot_be_set_large_enough_is_told_so(name, size):
    found = refusals(firm_=firm(name=name.strip()), style=Style(size))
    assert list(found) == ["firm.name"]
    assert "two lines" in found["firm.name"]


@pytest.mark.parametrize("name", ["Отопление", "暖房の店", "A 🔥 firm"])
def test_letters_that_the_typeface_lacks_are_named(name):
    assert "no letters" in refusals(firm_=firm(name=name))["firm.name"]


@pytest.mark.parametrize("name", ["Łódź Chauffage & Söhne", "#set text(red) *bold* $x$", '"quoted" \\ back'])
def test_letters_and_signs_that_it_has_are_printed_as_they_are(name):
    assert card(firm_=firm(name=name)).firm.name == name


@pytest.mark.parametrize("seed", range(12))
def test_whatever_a_home_says_of_itself_its_card_keeps_to_two_pages(seed):
    chance = Random(seed)
    words = ["a", "by the back door", "UNDER THE STAIRWELL", "iii", "wwwww", "in the hall cupboard, on the left"]
    places = {place: " ".join(chance.choices(words, k=chance.randint(1, 4))) for place in PLACES}
    made = card(home_=home(places=places, appliance=" ".join(chance.choices(words, k=3)), key=keys.make(chance)))
    assert press().sits(made)
    assert not press().tried(made).overfull()

import pytest

from tests.builders import firm
from tests.kb.card.cards import PLACES, card, home, library, refusals

LONG = "Look at the small window on the front and read what it says to whoever answers the phone, slowly, and twice."


def full(count=4, lines=(LONG, LONG)):
    return library(*((f"fault-{n}", n, lines) for n in range(1, count + 1)))


def test_where_room_is_short_the_least_needed_places_give_way():
    found = card(library_=full(lines=(LONG, LONG, LONG)), home_=home(places=dict.fromkeys(PLACES, LONG[:70])))
    assert 0 < len(found.places) < 4
    assert [spot.id for spot in found.places] == ["gas-valve", "stop-tap", "switch"][: len(found.places)]


def test_where_even_that_is_not_enough_the_longest_texts_are_named():
    told = refusals(library_=full(lines=(LONG * 3, LONG)))
    assert "articles: fault-1, On the card" in told
    assert all("too long" in found for found in told.values())


def test_a_text_as_long_as_a_page_is_named_alone():
    places = {**PLACES, "gas-valve": LONG * 20}
    assert list(refusals(home_=home(places=places), library_=full(lines=(LONG * 5, LONG)))) != []
    assert "home.places.gas-valve" not in {spot.where for spot in card(home_=home(places=places)).places}


def test_a_firm_whose_name_cannot_be_set_large_enough_is_told_so():
    found = refusals(firm_=firm(name="A name that goes on and on until nobody can find the telephone number any more"))
    assert list(found) == ["firm.name"]


@pytest.mark.parametrize("name", ["Отопление", "暖房", "A 🔥 firm"])
def test_letters_that_the_typeface_lacks_are_named(name):
    assert "no letters" in refusals(firm_=firm(name=name))["firm.name"]


@pytest.mark.parametrize("name", ["Łódź Chauffage & Söhne", "#set text(red) *bold* $x$", '"quoted" \\ back'])
def test_letters_and_signs_that_it_has_are_printed_as_they_are(name):
    assert card(firm_=firm(name=name)).firm.name == name

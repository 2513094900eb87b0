"""What is remembered of one home's card may not show on another's."""

from dataclasses import replace

from kb import keys
from kb.card.fit import fitted
from kb.card.press import press
from kb.card.value import Card
from tests.kb.card.cards import card, home


def test_a_second_home_has_its_own_key_and_the_sizes_of_the_first():
    one, other = card(), card(home_=replace(home(), key=keys.make()))

    assert one.page_typed[1] != other.page_typed[1]
    assert other.page.endswith(other.page_typed[1])
    assert (one.front, one.back) == (other.front, other.back)


def test_what_fits_with_the_widest_key_fits_with_the_homes_own():
    made = card(home_=replace(home(), key=keys.make()))

    assert isinstance(fitted(made, press()), Card)
    assert not press().tried(made).overfull()


def test_homes_that_differ_in_more_than_their_keys_are_fitted_anew():
    made = card(home_=home(places={"stop-tap": "under the sink"}))

    assert [spot.where for spot in made.places] == ["under the sink"]

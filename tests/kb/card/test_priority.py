from dataclasses import replace

import pytest

from kb.card import Style
from kb.card.priority import as_much_as, carried, lessened
from kb.card.sizes import BOTH, FORMATS
from kb.card.value import Rule
from tests.kb.card.cards import card


def of(size):
    return card(style=Style(size))


def test_the_smallest_card_carries_no_faults_rules_or_places():
    found = of("id1")
    assert (found.faults, found.places, found.reset, found.never) == ((), (), Rule("", ()), Rule("", ()))


def test_the_other_sizes_carry_everything():
    assert carried(card()) == card()


@pytest.mark.parametrize("side", BOTH)
@pytest.mark.parametrize("size", FORMATS)
def test_danger_the_first_phone_the_code_and_the_key_never_give_way(size, side):
    made = of(size)
    for fewer in lessened(made, side):
        assert fewer.danger == made.danger
        assert fewer.first == made.first
        assert (fewer.page, fewer.page_typed, fewer.firm.phone) == (made.page, made.page_typed, made.firm.phone)
        assert (fewer.reset, fewer.never) == (made.reset, made.never)


@pytest.mark.parametrize("size", FORMATS)
def test_what_stays_is_never_shortened(size):
    made = of(size)
    texts = dict.fromkeys(text for _, text in made.texts())
    for fewer in lessened(made, "back"):
        assert all(text in texts for _, text in fewer.texts())


def test_on_a_card_of_a_banks_size_the_foot_goes_first_and_other_phones_last():
    made = of("id1")
    assert [len(fewer.foot) for fewer in lessened(made, "back")][:2] == [1, 0]
    assert [fewer.firm.also for fewer in lessened(made, "back")][-1] == ()


def test_in_large_print_the_places_to_turn_gas_and_water_off_outlast_the_faults():
    fewer = next(each for each in lessened(of("a5"), "back") if not each.faults)
    assert [spot.id for spot in fewer.places] == ["gas-valve", "stop-tap"]


def test_a_side_with_nothing_to_lose_loses_nothing():
    assert lessened(card(), "front") == ()
    assert lessened(replace(card(), places=()), "back") == ()


def test_a_card_loses_as_much_as_its_model():
    made = of("a5")
    model = lessened(made, "back")[3]
    assert as_much_as(made, model) == model

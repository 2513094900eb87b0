import math
from itertools import count
from random import Random

import pytest

from kb.keys import ALPHABET, RANDOM_CHARACTERS, make, tidy

KEYS = [make(Random(seed)) for seed in range(25)]


def test_a_key_is_printed_in_three_groups_of_five():
    assert [len(group) for group in make().split("-")] == [5, 5, 5]


def test_a_key_that_was_made_is_tidy():
    assert [tidy(key) for key in KEYS] == KEYS


def test_two_keys_differ():
    assert len({make() for _ in range(200)}) == 200


def test_a_key_holds_at_least_sixty_bits_of_chance():
    assert RANDOM_CHARACTERS * math.log2(len(ALPHABET)) >= 60


@pytest.mark.parametrize("alike", ["0O", "1IL", "2Z", "5S", "6G", "8B", "UV"])
def test_no_two_characters_of_a_key_look_alike(alike):
    assert sum(sign in ALPHABET for sign in alike) <= 1


@pytest.mark.parametrize("key", KEYS)
def test_every_single_wrong_character_is_caught(key):
    bare = key.replace("-", "")
    for place, sign in enumerate(bare):
        for other in set(ALPHABET) - {sign}:
            assert tidy(bare[:place] + other + bare[place + 1 :]) is None


@pytest.mark.parametrize("key", KEYS)
def test_every_swap_of_two_different_neighbours_is_caught(key):
    bare = key.replace("-", "")
    for place in range(len(bare) - 1):
        first, second = bare[place : place + 2]
        if first != second:
            assert tidy(bare[:place] + second + first + bare[place + 2 :]) is None


@pytest.mark.parametrize("between", ["", " ", "  ", "-", "–", "\u2011", " - ", "\u00a0", "\n"])
def test_a_key_may_be_typed_with_any_separators_and_case(between):
    key = KEYS[0]
    assert tidy(f" {key.lower().replace('-', between)} ") == key


@pytest.mark.parametrize(
    "written",
    ["", "-", KEYS[0][:-1], KEYS[0] + "A", KEYS[0].replace("-", "/"), "A" * 10_000, "\0" * 15, "\u202e" + KEYS[0]],
)
def test_what_is_not_a_key_is_none(written):
    assert tidy(written) is None


def test_letters_that_only_become_plain_in_upper_case_are_not_a_key():
    made = (make(Random(seed)).replace("-", "") for seed in count())
    bare = next(bare for bare in made if "FF" in bare)
    typed = bare.replace("FF", "\ufb00", 1)
    assert typed.upper() == bare
    assert tidy(typed) is None

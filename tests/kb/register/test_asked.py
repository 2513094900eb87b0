from random import Random

import pytest

from kb import keys
from kb.register import Asked, understand

KEY = keys.make(Random(7))


def asked(typed: str) -> Asked:
    return understand(typed, "GB")


def test_a_key_is_a_key_however_it_is_typed():
    assert asked(f" {KEY.lower().replace('-', ' ')} ") == Asked(key=KEY)


@pytest.mark.parametrize(
    ("typed", "start"),
    [
        ("9ejfp", "9EJFP"),
        ("9EJF", "9EJF"),
        (" 9ejfp r9 ", "9EJFP-R9"),
        ("9EJFP-R992N-EKTA", "9EJFP-R992N-EKTA"),
        ("mary", "MARY"),
        ("9EJ", ""),
        ("9EJ0", ""),
        ("9EJFP-R992N-EKTAA", ""),
        ("zz99 3wz", ""),
        ("ſ9ejf", ""),
    ],
)
def test_the_beginning_of_a_key_is_taken_from_any_writing(typed, start):
    assert asked(typed).key_start == start


def test_a_name_that_could_begin_a_key_is_still_a_name():
    assert asked("mary").words == ("mary",)


@pytest.mark.parametrize(
    ("typed", "digits"),
    [
        ("01632 960123", "441632960123"),
        ("+44 (0)1632-960123", "441632960123"),
        ("00441632960123", "441632960123"),
        ("960123", "960123"),
        ("0123", "0123"),
        ("32 960 123", "32960123"),
        ("01632 9", "16329"),
    ],
)
def test_last_digits_are_taken_from_any_writing(typed, digits):
    assert asked(typed).digits == digits


@pytest.mark.parametrize("typed", ["123", "14 Mill Lane", "960123 or so", ""])
def test_few_digits_or_other_words_are_no_phone(typed):
    assert asked(typed).digits == ""


@pytest.mark.parametrize(
    ("typed", "postcode"),
    [
        ("zz99 3wz", "ZZ993WZ"),
        ("ZZ99", "ZZ99"),
        ("zz9 9", "ZZ99"),
        ("114b", "114B"),
        ("Mill Lane", ""),
        ("14 Mill Lane", ""),
    ],
)
def test_the_beginning_of_a_postcode_is_enough(typed, postcode):
    assert asked(typed).postcode == postcode


def test_words_are_folded_and_each_is_taken_once():
    assert asked("O'Neil, Zoë zoe").words == ("oneil", "zoe")


@pytest.mark.parametrize("typed", ["", " ", "a", "?!", "x" * 101])
def test_nothing_can_be_found_by_next_to_nothing(typed):
    assert asked(typed) == Asked()


@pytest.mark.parametrize("typed", ["\0", "\ud800", '" OR 1', "%_%", "AND", "*", "-1-1-1-1"])
def test_any_signs_may_be_typed(typed):
    assert all(word.isalnum() for word in asked(typed).words)

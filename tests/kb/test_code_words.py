import pytest

from kb.appliance import ENGINEER_ONLY, NO_FAULT, Display
from kb.code_words import either, said
from kb.codes import candidates, weigh
from tests.kb.test_codes import family

FIGURES = family("figures", _04=NO_FAULT, _11="overheat", _74=ENGINEER_ONLY, _77=ENGINEER_ONLY)


def told(typed: str, *ranges) -> list[str]:
    return list(said(typed, weigh(candidates(typed, ranges or [FIGURES]))).all)


def test_a_code_for_an_engineer_forbids_the_reset():
    assert told("74")[0] == "If it shows 74, a Figures needs an engineer. Do not reset. Call us today."


def test_what_two_codes_have_in_common_is_said_once_and_after_what_is_not_known():
    assert told("44")[:2] == [
        "We do not know the code 44. It may be no code at all, but the water temperature, 44 degrees. "
        "Look again in good light.",
        "If it shows 74 or 77, a Figures needs an engineer. Do not reset. Call us today.",
    ]


def test_what_may_be_less_than_an_engineers_fault_is_told_and_not_offered():
    # Outside source: 1 and 7 are one segment apart in the published encoding.
    assert "It may also show 11. Until you are sure, do not reset." in told("71")


def test_a_danger_is_told_first():
    ranges = [family("figures", Display.TEXT, Q1="carbon-monoxide"), family("others", Display.TEXT, Q1=ENGINEER_ONLY)]
    assert told("q1", *ranges)[0] == (
        "If it shows Q1, a Figures warns of danger. Go outside and call from there. Do not reset."
    )


def test_what_is_no_fault_and_what_is_no_code_come_last():
    assert told("04") == [
        "Look again in good light. If it shows 74, a Figures needs an engineer. Do not reset. Call us today.",
        "If it shows 04, a Figures has no fault. It clears by itself.",
        "It may be no code at all, but the water pressure, 0.4 bar, with a point that is hard to see.",
    ]


def test_a_pressure_is_likelier_than_a_code_with_a_lamp_in_it():
    assert told("1.1") == ["It may be no code at all, but the water pressure, 1.1 bar. Look again in good light."]


def test_nothing_known_is_nothing_said():
    assert told("zz") == []


@pytest.mark.parametrize(
    ("shown", "words"), [(["1"], "1"), (["1", "2", "1"], "1 or 2"), (["1", "2", "3"], "1, 2 or 3")]
)
def test_one_of_several_is_said_once_each(shown, words):
    assert either(shown) == words

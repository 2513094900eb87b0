"""What was typed into a record, taken as it stands."""

from dataclasses import fields

from kb.engineering.plausible import questions
from kb.engineering.record import Readings
from kb.engineering.taking import take
from tests.kb.engineering.records import GOOD


def test_a_whole_record_is_taken() -> None:
    typed = {each.name: str(getattr(GOOD, each.name)) for each in fields(Readings)}

    assert take(typed) == (GOOD, ())


def test_units_and_empty_fields_are_taken_and_other_fields_left_alone() -> None:
    readings, problems = take({"cold_bar": "1.2 bar", "static_m": " ", "inhibitor": "dosed", "fuel": "lpg"})

    assert (readings, problems) == (Readings(fuel="lpg", cold_bar=1.2), ())


def test_an_imperial_meter_counts_feet() -> None:
    assert take({"meter": "imperial", "gas_volume": "1.6 ft3"}) == (Readings(meter="imperial", gas_volume=1.6), ())


def test_what_is_no_number_is_told_and_the_rest_is_taken() -> None:
    readings, problems = take({"cold_bar": "1,2", "static_m": "5"})

    assert readings == Readings(static_m=5)
    assert [str(problem) for problem in problems] == [
        "cold_bar: Expected a number in bar, found '1,2'. Write figures with a point, such as 0.045."
    ]


def test_a_number_that_cannot_be_is_taken_and_asked_about() -> None:
    readings, problems = take({"static_m": "500"})

    assert (readings.static_m, problems) == (500, ())
    assert [remark.check for remark in questions(readings)] == ["possible"]

import pytest

from kb.handover.typed import Problem
from kb.visit.readings import Reading, heard, read, readings


@pytest.mark.parametrize("typed", ["1.2", "1,2", " 1.2 "])
def test_a_reading_is_a_figure_a_unit_and_a_place(typed: str) -> None:
    assert read(typed, "bar", "gauge,  cold") == Reading(1.2, "bar", "gauge, cold")


@pytest.mark.parametrize(
    ("figure", "unit", "where"),
    [
        ("warm", "bar", "gauge"),
        ("1,234", "ppm", "flue"),
        ("1.2", "psi", "gauge"),
        ("1.2", "bar", " "),
        ("", "bar", "x"),
    ],
)
def test_what_is_no_reading_is_told_in_three_parts(figure: str, unit: str, where: str) -> None:
    assert str(read(figure, unit, where)).startswith("Expected ")


def test_a_reading_survives_being_written_down() -> None:
    written = read("−2.5", "°C", "outside, north wall", "reading:1")
    assert isinstance(written, Reading)
    assert heard("reading:1", str(written)) == written


def test_readings_that_were_taken_back_are_gone() -> None:
    texts = {"reading:1": "1.2 bar gauge, cold", "reading:2": "", "cause": "1 bar x", "reading:3": "nonsense"}
    assert [str(each) for each in readings(texts)] == ["1.2 bar gauge, cold"]


def test_nonsense_is_a_problem() -> None:
    assert isinstance(heard("reading:1", "nonsense"), Problem)

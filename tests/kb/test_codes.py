import pytest

from kb.appliance import Clears, Code, Display, Make, Range
from kb.codes import Certainty, candidates, no_code, normalise
from kb.findings import Place


def family(name: str, **codes: str) -> Range:
    """A range whose codes are given by name and category; an underscore before a figure is dropped."""
    rows = tuple(
        Code(code.lstrip("_"), "words", category, Clears.RESET, "common practice", Place(f"{name}.md", 1))
        for code, category in codes.items()
    )
    return Range(name, name.title(), Make.COMBI, Display.SEVEN_SEGMENT, {}, (), (), rows, f"{name}.md")


FIGURES = family("figures", _07="ignition-failure", _12="low-pressure", _70="overheat")
LETTERS = family("letters", K07="condensate", _12="flame-loss")


def found(typed: str, *ranges: Range) -> list[tuple[str, str]]:
    return [(reading.range.id, reading.category) for reading in candidates(typed, ranges)]


@pytest.mark.parametrize("typed", ["K07", "k07", " k 07 ", "K-07", "K–07", "k.07", "K/07", "K:07."])
def test_case_and_separators_do_not_matter(typed):
    assert found(typed, FIGURES, LETTERS) == [("letters", "condensate")]


def test_a_code_is_looked_up_in_the_homes_own_range_alone():
    assert found("12", LETTERS) == [("letters", "flame-loss")]


def test_a_code_that_two_ranges_have_is_two_readings():
    assert found("12", FIGURES, LETTERS) == [("figures", "low-pressure"), ("letters", "flame-loss")]


def test_a_leading_nought_that_stayed_dark_is_less_certain():
    (reading,) = candidates("7", [FIGURES])
    assert (reading.code.code, reading.certainty) == ("07", Certainty.ALIKE)
    assert candidates("07", [FIGURES])[0].certainty is Certainty.SAME


def test_a_nought_at_the_end_is_never_dropped():
    assert found("70", FIGURES) == [("figures", "overheat")]


@pytest.mark.parametrize("typed", ["1.2", "1,2", "1.2 bar"])
def test_a_gauges_reading_is_no_code(typed):
    assert found(typed, FIGURES) == []


@pytest.mark.parametrize("typed", ["", " ", "-", "99", "K", "\0", "\u202e", "1" * 10_000, "12" + " " * 10_000])
def test_what_is_no_code_has_no_reading(typed):
    assert found(typed, FIGURES, LETTERS) == []


def test_normalising_twice_changes_nothing():
    assert [normalise(normalise(code)) for code in ("k-07", "1.2", " e 1.")] == ["K07", "1.2", "E1"]


@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("1.2", "the water pressure, 1.2 bar"),
        ("0,8 bar", "the water pressure, 0.8 bar"),
        ("65", "the water temperature, 65 degrees"),
        ("65°C", "the water temperature, 65 degrees"),
        ("07:45", "the time of day"),
        ("12", None),
        ("99", None),
        ("QX71", None),
        ("25:00", None),
    ],
)
def test_a_display_may_show_no_code_at_all(typed, value):
    assert no_code(typed) == value

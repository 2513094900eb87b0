import pytest
from hypothesis import given
from hypothesis import strategies as st

from kb.appliance import ENGINEER_ONLY, NO_FAULT, Clears, Code, Display, Make, Range
from kb.codes import Certainty, Safety, candidates, normalise, weigh
from kb.findings import Place
from kb.spoken import CODE_WORDS


def family(name: str, display: Display = Display.SEVEN_SEGMENT, **codes: str) -> Range:
    """A range whose codes are given by name and category; an underscore before a figure is dropped."""
    rows = tuple(
        Code(code.lstrip("_"), "words", category, clears(category), "common practice", Place(f"{name}.md", 1))
        for code, category in codes.items()
    )
    return Range(name, name.title(), Make.COMBI, display, {}, (), (), rows, f"{name}.md")


def clears(category: str) -> Clears:
    return Clears.ENGINEER if category == ENGINEER_ONLY else Clears.RESET


FIGURES = family("figures", _07="ignition-failure", _12="low-pressure", _70="overheat")
LETTERS = family("letters", Display.TEXT, K07="condensate", _12="flame-loss")
FIGURE_WORDS = ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"]


def found(typed: str, *ranges: Range) -> list[tuple[str, str]]:
    return [(reading.range.id, reading.category) for reading in candidates(typed, ranges)]


def weighed(typed: str, *ranges: Range) -> list[tuple[str, Safety, bool, bool]]:
    each = weigh(candidates(typed, ranges))
    return [(one.reading.code.code, one.safety, one.plausible, one.may_reset) for one in each]


@pytest.mark.parametrize("typed", ["K07", "k07", " k 07 ", "K-07", "K–07", "k.07", "K/07", "K:07.", "Ｋ０７"])
def test_case_and_separators_do_not_matter(typed):
    assert found(typed, FIGURES, LETTERS) == [("letters", "condensate")]


@pytest.mark.parametrize(
    "typed",
    ["kilo zero seven", "k for kettle oh seven", "K as in key, nought, 7", "kay, zero, seven", "code: k oh seven"],
)
def test_a_code_may_be_spelt_out(typed):
    (reading,) = candidates(typed, [LETTERS])
    assert (reading.code.code, reading.certainty) == ("K07", Certainty.SAME)


def test_a_nought_written_as_a_letter_is_less_certain():
    (reading,) = candidates("KO7", [LETTERS])
    assert reading.certainty is Certainty.LOOKS_THE_SAME


def test_a_code_is_looked_up_in_the_homes_own_range_alone():
    assert found("12", LETTERS) == [("letters", "flame-loss")]


def test_a_code_that_two_ranges_have_is_two_readings():
    assert found("12", FIGURES, LETTERS) == [("figures", "low-pressure"), ("letters", "flame-loss")]


def test_a_leading_nought_that_stayed_dark_is_less_certain():
    (reading,) = candidates("7", [FIGURES])
    assert (reading.code.code, reading.certainty) == ("07", Certainty.ALIKE)
    assert candidates("07", [FIGURES])[0].certainty is Certainty.SAME


def test_a_nought_at_the_end_is_never_dropped():
    assert found("70", LETTERS, FIGURES) == [("figures", "overheat")]


@pytest.mark.parametrize("typed", ["1.2", "1,2"])
def test_a_point_may_be_a_lamp_of_its_own_and_is_hardly_certain(typed):
    (reading,) = candidates(typed, [LETTERS])
    assert (reading.code.code, reading.certainty) == ("12", Certainty.POINT)


@pytest.mark.parametrize("typed", ["1.2 bar", "12 degrees", "12:00"])
def test_a_figure_with_its_unit_is_no_code(typed):
    assert found(typed, FIGURES) == []


@pytest.mark.parametrize("typed", ["", " ", "-", "99", "K", "\0", "\u202e", "1" * 10_000, "12" + " " * 10_000, "."])
def test_what_is_no_code_has_no_reading(typed):
    assert found(typed, LETTERS) == []


def test_normalising_twice_changes_nothing():
    assert [normalise(normalise(code)) for code in ("k-07", "1.2", " e 1.")] == ["K07", "1.2", "E1"]


@given(st.text(max_size=80))
def test_whatever_is_typed_is_read_without_an_error(typed):
    readings = candidates(typed, [FIGURES, LETTERS])
    assert len(weigh(readings)) == len(readings)


@given(
    st.sampled_from("ABCDGHKMNPRTUWXZ"),
    st.lists(st.integers(0, 9), min_size=2, max_size=2),
    st.sampled_from(["", " ", "-", "/", ": "]),
    st.booleans(),
)
def test_typed_with_any_separator_or_spelt_out_a_code_is_the_same(letter, figures, between, low):
    code = letter + "".join(map(str, figures))
    ranges = [family("any", Display.TEXT, **{code: "overheat"})]
    typed = between.join(code.lower() if low else code)
    word = next(word for word, sign in CODE_WORDS.items() if sign == letter)
    spelt = " ".join([word, *(FIGURE_WORDS[figure] for figure in figures)])
    assert candidates(typed, ranges) == candidates(spelt, ranges) == candidates(code, ranges)
    assert candidates(code, ranges)[0].certainty is Certainty.SAME


def test_of_two_plausible_readings_the_safer_leads_and_the_other_may_not_reset():
    # 5 and S, 2 and Z have one shape each on a display of seven segments.
    ranges = [family("alike", S2="ignition-failure", _5Z=ENGINEER_ONLY)]
    assert weighed("52", *ranges) == [("5Z", Safety.ENGINEER, True, False), ("S2", Safety.LOOK, True, False)]


def test_a_danger_comes_before_an_engineers_fault_and_what_is_no_fault_comes_last():
    ranges = [family("all", _11=NO_FAULT, O11=NO_FAULT, _17=ENGINEER_ONLY), family("other", _11="carbon-monoxide")]
    assert [safety for _, safety, _, _ in weighed("11", *ranges)] == [Safety.DANGER, Safety.NO_FAULT, Safety.ENGINEER]


def test_a_code_as_it_stands_outweighs_a_doubt_about_the_display():
    # Outside source: 1 and 7 are one segment apart in the published encoding.
    ranges = [family("near", _31="low-pressure", _37=ENGINEER_ONLY)]
    assert weighed("31", *ranges) == [("31", Safety.LOOK, True, True), ("37", Safety.ENGINEER, False, False)]


def test_where_every_reading_is_a_doubt_one_for_an_engineer_forbids_the_reset():
    ranges = [family("near", _61="low-pressure", _37=ENGINEER_ONLY)]
    assert weighed("67", *ranges) == [("61", Safety.LOOK, True, True)]
    assert weighed("31", *ranges) == [("37", Safety.ENGINEER, True, False)]
    both = [family("near", _61="low-pressure", _87=ENGINEER_ONLY)]
    assert weighed("67", *both) == [("87", Safety.ENGINEER, True, False), ("61", Safety.LOOK, True, False)]


def test_a_fault_that_an_engineer_clears_is_an_engineers_whatever_its_category():
    (row,) = family("any", _12="overheat").codes
    by_hand = Code(row.code, row.says, row.category, Clears.ENGINEER, row.source, row.place)
    ranges = [Range("any", "Any", Make.COMBI, Display.TEXT, {}, (), (), (by_hand,), "any.md")]
    assert weighed("12", *ranges) == [("12", Safety.ENGINEER, True, False)]


def test_of_two_codes_an_engineers_forbids_the_reset_for_both_even_where_it_is_a_doubt():
    ranges = [family("both", _12="ignition-failure", _87=ENGINEER_ONLY)]
    both = weigh(candidates("12", ranges), candidates("67", ranges))
    assert [(each.reading.code.code, each.plausible, each.may_reset) for each in both] == [
        ("87", True, False),
        ("12", True, False),
    ]


def test_every_reading_says_why_it_stands_where_it_stands():
    (first, second) = weigh(candidates("67", [family("near", _61="low-pressure", _87=ENGINEER_ONLY)]))
    assert first.why == "Only an engineer can clear it."
    assert second.why == "A reading that needs an engineer is as plausible."

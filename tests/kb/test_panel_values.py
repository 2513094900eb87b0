import pytest
from hypothesis import given
from hypothesis import strategies as st

from kb.panel_values import no_faults

PRESSURE = "the water pressure, {} bar"
LOST = "the water pressure, {} bar, with a point that is hard to see"
HEAT = "the water temperature, {} degrees"


@pytest.mark.parametrize(
    ("typed", "values"),
    [
        ("1.2", [PRESSURE.format("1.2")]),
        ("0,8 bar", [PRESSURE.format("0.8")]),
        ("1 bar", [PRESSURE.format("1")]),
        ("one point two bar", [PRESSURE.format("1.2")]),
        ("7.4", []),
        ("12", [LOST.format("1.2")]),
        ("28", [LOST.format("2.8"), HEAT.format("28")]),
        ("65", [HEAT.format("65")]),
        ("65°C", [HEAT.format("65")]),
        ("sixty five degrees", [HEAT.format("65")]),
        ("99", []),
        ("00", []),
        ("07:45", ["the time of day"]),
        ("0745", ["the time of day"]),
        ("25:00", []),
        ("QX71", []),
        ("", []),
    ],
)
def test_a_figure_may_be_no_code_at_all(typed, values):
    assert list(no_faults(typed)) == values


@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("Standby", "a sign that it stands by, and nothing asks for heat"),
        ("STAND-BY", "a sign that it stands by, and nothing asks for heat"),
        ("frost protection", "a sign that it keeps itself from freezing"),
        ("snowflake", "a sign that it keeps itself from freezing"),
        ("service due", "a sign that a service is due"),
        ("spanner", "a sign that a service is due"),
        ("dhw", "a sign that it heats the hot water first"),
        ("summer", "a setting"),
        ("child lock", "a sign that its buttons are locked"),
    ],
)
def test_a_panel_may_say_what_it_is_doing(typed, value):
    assert no_faults(typed) == (value,)


@pytest.mark.parametrize("typed", ["no hot water", "frozen", "locked", "lockout", "flame lost", "no service"])
def test_words_of_a_fault_are_no_sign_of_its_absence(typed):
    assert no_faults(typed) == ()


@given(st.text(max_size=80))
def test_any_text_may_be_typed(typed):
    assert len(no_faults(typed)) <= 3

import pytest

from kb.engineering.record import BOUNDS
from kb.handover.checks import CHECKS, readings_of
from kb.handover.said import Level, said_of
from tests.kb.handover.records import FORM, state

# Not asked: what the analyser works out by itself.
WORKED_OUT = {"ratio_high", "ratio_low"}
TWO_UNITS = {"gas_volume": ("gas-m3", "gas-ft3")}


def said(**changed: str):
    return [each for each in said_of(state(**changed), CHECKS) if each.level is not Level.FINE]


def test_a_record_in_order_shows_its_working_and_asks_nothing() -> None:
    found = said_of(state(), CHECKS)
    assert [each.text for each in found if each.level is not Level.FINE] == []
    checks = {each.check for each in found if each.working}
    assert {"gas-rate", "ratio", "hot-water", "flow-return", "condenses", "gas-drop", "flue-length"} <= checks


def test_every_figure_the_engineering_knows_is_asked_for() -> None:
    asked = {id.replace("-", "_") for id in FORM.by_id}
    for name in set(BOUNDS) - WORKED_OUT:
        assert name in asked or set(TWO_UNITS.get(name, ("",))) <= set(FORM.by_id), name


def test_what_can_be_typed_is_what_the_engineering_takes_for_possible() -> None:
    for name, bounds in BOUNDS.items():
        field = FORM.by_id.get(name.replace("_", "-"))
        if field:
            assert field.span == (bounds.possible.low, bounds.possible.high), name
            assert field.unit == bounds.possible.unit, name


def test_a_decimal_slipped_in_the_gas_volume_is_asked_about() -> None:
    (asked,) = said(gas_m3="0.425")
    assert asked.level is Level.QUESTION
    assert asked.section(FORM) == "gas"
    assert "0.0425 m³ would fit" in asked.text


@pytest.mark.parametrize(
    ("swapped", "section"),
    [({"flow_c": "42", "return_c": "60"}, "heating"), ({"cold_in_c": "45", "hot_out_c": "10"}, "hot-water")],
)
def test_two_temperatures_swapped_are_asked_about(swapped: dict[str, str], section: str) -> None:
    (asked,) = said(**swapped)
    assert asked.level is Level.QUESTION
    assert "swapped" in asked.text
    assert asked.section(FORM) == section


def test_too_much_carbon_monoxide_is_a_danger() -> None:
    assert {each.level for each in said(co_high_ppm="620")} == {Level.DANGER}


def test_an_imperial_meter_is_read_in_its_own_unit() -> None:
    # 0.0425 m³ are 1.5 ft³.
    changed = {"meter_kind": "imperial", "gas_m3": "", "gas_ft3": "1.5"}
    assert readings_of(state(**changed)).gas_volume == 1.5
    assert said(**changed) == []
    (asked,) = said(**{**changed, "gas_ft3": "15"})
    assert asked.fields[0] == "gas-ft3"


def test_a_figure_that_cannot_be_is_asked_about_once() -> None:
    assert len(said(flow_c="600")) == 1


@pytest.mark.parametrize(("stored", "asked"), [("50", 1), ("60", 0), ("65", 0), ("75", 1)])
def test_a_cylinder_is_kept_hot_enough_and_no_hotter(stored: str, asked: int) -> None:
    assert len(said(hot_water="unvented", store_c=stored, discharge="yes")) == asked


@pytest.mark.parametrize(("ends", "asked"), [("2026-11-25", 1), ("2026-11-26", 0), ("", 0)])
def test_an_alarm_past_its_day_is_asked_about(ends: str, asked: int) -> None:
    assert len(said(co_alarm_ends=ends)) == asked
    assert len(said(co_alarm_ends=ends, co_alarm="no")) == 1  # that there is none

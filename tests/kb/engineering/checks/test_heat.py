"""Hot water and heating: kW = l/min × K × 0.07, 10 to 20 K round the radiators (common practice)."""

import pytest

from kb.engineering.record import Readings
from kb.engineering.remark import Level
from tests.kb.engineering.records import asked, levels, only, record, said

TAP = ("dhw_lpm", "cold_in_c", "hot_out_c")


def test_the_working_of_the_hot_water() -> None:
    assert said(only(*TAP), "hot-water").working == (
        "45 − 10 °C = 35 K",
        "9.8 l/min × 0.9997 kg/l ÷ 60 × 4.186 kJ/kgK × 35 K = 23.9 kW",
    )


@pytest.mark.parametrize(
    ("litres", "level"),
    [(9.0, Level.FINE), (10.7, Level.FINE), (8.5, Level.QUESTION), (11, Level.QUESTION)],
)
def test_hot_water_lies_within_a_tenth_of_the_plate(litres: float, level: Level) -> None:
    assert said(only(*TAP[1:], dhw_lpm=litres, dhw_kw=24), "hot-water").level is level


def test_a_slipped_point_in_the_litres_is_guessed() -> None:
    assert "9.8 l/min would fit." in said(only(*TAP[1:], dhw_lpm=98, dhw_kw=24), "hot-water").text
    assert "would fit" not in said(only(*TAP[1:], dhw_lpm=7, dhw_kw=24), "hot-water").text


def test_no_more_heat_in_the_water_than_the_gas_brings() -> None:
    assert asked(record(dhw_lpm=14, dhw_kw=None)) == {"hot-water-gas"}
    assert asked(record(dhw_lpm=12, dhw_kw=None)) == set()


def test_hot_and_cold_swapped() -> None:
    assert levels(only("dhw_lpm", "dhw_kw", cold_in_c=45, hot_out_c=10)) == {"tap-swapped": Level.QUESTION}


@pytest.mark.parametrize(("celsius", "asks"), [(39, True), (40, False), (60, False), (61, True)])
def test_a_tap_is_neither_cool_nor_scalding(celsius: float, asks: bool) -> None:
    assert ("tap-temperature" in asked(only(hot_out_c=celsius))) is asks


def test_scalding_water_is_turned_down_before_leaving() -> None:
    # Water of 60 °C burns in about five seconds (burns trusts' figure).
    assert "Turn it down before you leave" in said(only(hot_out_c=65), "tap-temperature").text


@pytest.mark.parametrize(
    ("flow", "back", "level"),
    [
        (65, 48, Level.FINE),
        (70, 44, Level.QUESTION),
        (60, 56, Level.QUESTION),
        (48, 65, Level.QUESTION),
    ],
)
def test_flow_less_return(flow: float, back: float, level: Level) -> None:
    assert said(only(flow_c=flow, return_c=back), "flow-return").level is level


def test_what_the_pump_must_move_is_shown() -> None:
    # Common practice: 24 kW take about 17 l/min at 20 K.
    assert said(only("output_kw", flow_c=70, return_c=50), "flow-return").working[-1] == (
        "24 kW at 20 K take 17.4 l/min from the pump"
    )


def test_a_flow_over_80_is_asked_about() -> None:
    assert asked(only(flow_c=81)) == {"flow-setting"}


@pytest.mark.parametrize(("litres", "asks"), [(18, False), (24, True)])
def test_no_more_heat_goes_round_than_the_plate_gives(litres: float, asks: bool) -> None:
    assert ("heating" in asked(only("output_kw", "flow_c", "return_c", heating_lpm=litres))) is asks


@pytest.mark.parametrize(
    ("readings", "level"),
    [
        # Methane at 9.0 % CO₂ (27 % excess air) has its dew point at 54.6 °C, propane at 10.3 % at 49.9 °C (IF97).
        (only("fuel", co2_high=9, return_c=54), Level.FINE),
        (only("fuel", co2_high=9, return_c=55), Level.QUESTION),
        (only(fuel="lpg", co2_high=10.3, return_c=49), Level.FINE),
        (only(fuel="lpg", co2_high=10.3, return_c=51), Level.QUESTION),
    ],
)
def test_whether_it_condenses(readings: Readings, level: Level) -> None:
    assert said(readings, "condenses").level is level


def test_condensate_in_litres_an_hour() -> None:
    # 0.1455 l for each kWh gross when all of it condenses; about 2 to 3 l/h at full rate is common.
    remark = said(record(return_c=40), "condenses")

    assert "Up to 2.4 l/h of condensate run at this rate, 4.3 l/h at the very most." in remark.text
    assert "29.4 kW gross × 0.145 l/kWh = 4.28 l/h when all of it condenses" in remark.working


@pytest.mark.parametrize(
    "readings", [record(fuel="oil"), record(co2_high=12.5), record(co2_high=1), record(return_c=66)]
)
def test_where_there_is_no_sound_flame_nothing_is_said_of_condensing(readings: Readings) -> None:
    assert "condenses" not in levels(readings)

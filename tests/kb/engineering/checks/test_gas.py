"""The gas rate against the plate: metric and imperial, natural gas and propane, and the slips of a pen."""

import pytest

from kb.engineering.checks.gas import trusted
from kb.engineering.record import Readings
from kb.engineering.remark import Level
from tests.kb.engineering.records import asked, only, propane, record, said

RATE = ("fuel", "gas_volume", "gas_s", "cv")


def test_the_working_is_what_an_engineer_writes() -> None:
    assert said(record(), "gas-rate").working == (
        "0.045 m³ in 60 s × 39.2 MJ/m³ = 29.4 kW gross",
        "29.4 ÷ 1.11 = 26.5 kW net",
        "26.5 kW against 26.5 kW on the plate, net: -0.1 %; ±5 % is usual, the maker's figure wins",
    )


def test_without_a_plate_the_rate_is_shown_and_nothing_asked() -> None:
    shown = said(only(*RATE), "gas-rate")

    assert shown.level is Level.FINE
    assert shown.text == "The gas rate is 29.4 kW gross, 26.5 kW net."


def test_gross_is_compared_with_gross() -> None:
    assert said(only(*RATE, "input_gross_kw"), "gas-rate").level is Level.FINE


@pytest.mark.parametrize(
    ("volume", "level"),
    [
        (0.0428, Level.FINE),
        (0.0472, Level.FINE),
        (0.0424, Level.QUESTION),
        (0.048, Level.QUESTION),
        (0.051, Level.DANGER),
        (0.03, Level.QUESTION),
    ],
)
def test_five_per_cent_is_usual_and_far_above_is_a_danger(volume: float, level: Level) -> None:
    # ±5 % is common practice where the maker says nothing.
    assert said(record(gas_volume=volume), "gas-rate").level is level


def test_a_little_above_is_asked_with_what_to_do_if_it_stays() -> None:
    assert (
        "turn the appliance off and follow the unsafe-situations procedure"
        in said(record(gas_volume=0.048), "gas-rate").text
    )


@pytest.mark.parametrize(
    ("readings", "guess"),
    [
        (record(gas_volume=0.45), "Is a decimal point in the wrong place? 0.045 m³ would fit."),
        (record(gas_volume=0.0045), "Is a decimal point in the wrong place? 0.045 m³ would fit."),
        (record(gas_volume=45), "Is a decimal point in the wrong place? 0.045 m³ would fit."),
        (record(gas_volume=1.59), "Does the meter count in ft³? Then the rate would fit."),
        (record(gas_volume=0.045, meter="imperial"), "Does the meter count in m³? Then the rate would fit."),
        (record(gas_volume=15.9, meter="imperial"), "1.59 ft³ would fit."),
        (only(*RATE, input_net_kw=2.65), "26.5 kW would fit."),
    ],
)  # fmt: skip
def test_a_slip_is_guessed(readings: Readings, guess: str) -> None:
    remark = said(readings, "gas-rate")

    assert remark.level is Level.QUESTION
    assert guess in remark.text


@pytest.mark.parametrize(
    ("readings", "level", "guess"),
    [
        (only(*RATE, input_net_kw=29.4), Level.QUESTION, "Is the plate's 29.4 kW gross?"),
        (only(*RATE, input_gross_kw=26.5), Level.DANGER, "Is the plate's 26.5 kW net?"),
        (record(gas_s=30), Level.DANGER, "Was the time 60 s?"),
        (record(gas_s=120), Level.QUESTION, "Was the time 60 s?"),
    ],
)
def test_what_might_be_a_slip_but_may_be_true_keeps_its_level(readings: Readings, level: Level, guess: str) -> None:
    remark = said(readings, "gas-rate")

    assert remark.level is level
    assert guess in remark.text


def test_an_imperial_meter() -> None:
    # 1.589 ft³ is 0.045 m³.
    remark = said(record(gas_volume=1.589, meter="imperial"), "gas-rate")

    assert remark.level is Level.FINE
    assert remark.working[0] == "1.589 ft³ × 0.028317 = 0.045 m³"


def test_propane_has_its_own_heat() -> None:
    assert "95.65 MJ/m³ = 28.9 kW gross" in said(propane(), "gas-rate").working[0]


def test_a_calorific_value_of_another_gas_is_asked_about_and_not_used() -> None:
    readings = record(cv=93.1)

    assert asked(readings) == {"calorific-value"}
    assert "39.2 MJ/m³" in said(readings, "gas-rate").working[0]


@pytest.mark.parametrize(
    "readings", [record(fuel="oil"), record(fuel=None), only("fuel", "gas_volume"), record(meter="?")]
)
def test_what_no_meter_measures_has_no_rate(readings: Readings) -> None:
    assert trusted(readings) is None
    assert "gas-rate" not in asked(readings)


def test_other_checks_build_on_no_rate_that_is_in_doubt() -> None:
    assert trusted(record()) is not None
    assert trusted(record(gas_volume=0.45)) is None
    assert trusted(only("fuel", "gas_s", gas_volume=4.5)) is None

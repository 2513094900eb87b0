"""Gas pressures: 21 ± 2 mbar and a drop of 1 on mains gas, 37 ± 5 and about 2.5 on propane (common practice)."""

import pytest

from kb.engineering.record import Readings
from kb.engineering.remark import Level
from tests.kb.engineering.records import asked, only, record, said

MAINS = {"fuel": "natural-gas"}
PROPANE = {"fuel": "lpg"}


@pytest.mark.parametrize(
    ("kind", "figures", "check"),
    [
        (MAINS, {"standing_mbar": 30.5}, "standing-pressure"),
        (MAINS, {"standing_mbar": 15}, "standing-pressure"),
        (MAINS, {"at_meter_mbar": 18.4}, "working-pressure"),
        (MAINS, {"at_meter_mbar": 23.5}, "working-pressure"),
        (MAINS, {"at_meter_mbar": 20, "at_appliance_mbar": 18.8}, "gas-drop"),
        (MAINS, {"drop_mbar": 1.2}, "gas-drop"),
        (PROPANE, {"at_meter_mbar": 31}, "working-pressure"),
        (PROPANE, {"at_meter_mbar": 43}, "working-pressure"),
        (PROPANE, {"standing_mbar": 46}, "standing-pressure"),
        (PROPANE, {"at_meter_mbar": 37, "at_appliance_mbar": 34}, "gas-drop"),
    ],
)
def test_outside_its_band_a_pressure_is_asked_about(
    kind: dict[str, str], figures: dict[str, float], check: str
) -> None:
    assert said(only(**kind, **figures), check).level is Level.QUESTION


@pytest.mark.parametrize(
    "readings",
    [
        only(**MAINS, standing_mbar=30, at_meter_mbar=23),
        only(**MAINS, at_meter_mbar=19, at_appliance_mbar=18),
        only(**PROPANE, standing_mbar=45, at_meter_mbar=32, at_appliance_mbar=29.5),
        only(fuel="oil", at_meter_mbar=5),
        only(at_meter_mbar=15),
    ],
)  # fmt: skip
def test_within_it_or_without_a_fuel_nothing_is_asked(readings: Readings) -> None:
    assert asked(readings) == set()


@pytest.mark.parametrize("name", ["standing_mbar", "at_meter_mbar", "at_appliance_mbar"])
@pytest.mark.parametrize("fuel", ["natural-gas", "lpg", None])
def test_a_pressure_that_no_regulator_holds_is_a_danger(name: str, fuel: str | None) -> None:
    remark = said(only(fuel=fuel, **{name: 75}), "unheld-pressure")

    assert remark.level is Level.DANGER
    assert "Turn the gas off and report it." in remark.text


def test_a_slipped_point_is_guessed_after_the_warning() -> None:
    assert said(only(**MAINS, standing_mbar=210), "unheld-pressure").text.endswith("21 mbar would fit.")
    assert said(only(**MAINS, at_meter_mbar=2.05), "working-pressure").text.count("20.5 mbar would fit.") == 1


def test_standing_and_working_swapped() -> None:
    assert said(only(**MAINS, standing_mbar=20.5, at_meter_mbar=23), "standing-working").text.endswith("swapped?")


def test_meter_and_appliance_swapped() -> None:
    remark = said(only(**MAINS, at_meter_mbar=19.8, at_appliance_mbar=20.5), "gas-drop")

    assert remark.level is Level.QUESTION
    assert "swapped" in remark.text


def test_the_drop_that_was_written_is_the_difference() -> None:
    assert said(record(), "gas-drop").working == ("20.5 − 19.8 = 0.7 mbar",)
    assert said(record(drop_mbar=7), "drop-written").text == (
        "The drop is written as 7 mbar, but the two pressures give 0.7. "
        "Is a decimal point in the wrong place? 0.7 mbar would fit."
    )

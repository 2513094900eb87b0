"""A handover record in which everything fits, for tests to change one thing in."""

from dataclasses import fields, replace
from typing import Any, Final

from kb.engineering.plausible import remarks
from kb.engineering.record import Readings
from kb.engineering.remark import Level, Remark

GOOD: Final = Readings(
    fuel="natural-gas",
    input_net_kw=26.5,
    input_gross_kw=29.4,
    output_kw=24,
    dhw_kw=24,
    cold_bar=1.2,
    hot_bar=1.8,
    static_m=5,
    charge_bar=0.75,
    vessel_l=10,
    system_l=80,
    relief_bar=3,
    standing_mbar=23,
    at_meter_mbar=20.5,
    at_appliance_mbar=19.8,
    drop_mbar=0.7,
    gas_volume=0.045,
    gas_s=60,
    cv=39.2,
    co_high_ppm=80,
    co2_high=9.0,
    ratio_high=0.0009,
    co_low_ppm=20,
    co2_low=8.7,
    ratio_low=0.0002,
    maker_co_ppm=400,
    maker_ratio=0.004,
    intake_o2=20.9,
    intake_co2=0.1,
    flow_c=65,
    return_c=48,
    heating_lpm=18,
    dhw_lpm=9.8,
    cold_in_c=10,
    hot_out_c=45,
    flue_straight_m=2,
    flue_bends_90=1,
    flue_bend_90_m=1,
    flue_bends_45=0,
    flue_bend_45_m=0.5,
    flue_max_m=8,
)

NOTHING: Final = Readings()


def record(**changes: Any) -> Readings:
    """The good record with these figures instead."""
    return replace(GOOD, **changes)


def only(*names: str, **changes: Any) -> Readings:
    """An empty record with these figures of the good one, or these others."""
    return replace(NOTHING, **{name: getattr(GOOD, name) for name in names}, **changes)


def propane(**changes: Any) -> Readings:
    """A good record of a boiler on propane, with these figures instead."""
    gas: dict[str, Any] = {
        "fuel": "lpg",
        "input_gross_kw": 28.8,
        "standing_mbar": 40,
        "at_meter_mbar": 37,
        "at_appliance_mbar": 35,
        "drop_mbar": 2,
        "gas_volume": 0.0181,
        "cv": 95.65,
        "co2_high": 10.3,
        "ratio_high": 0.0008,
        "co2_low": 9.8,
        "return_c": 42,
        "flow_c": 57,
    }
    return record(**{**gas, **changes})


def said(readings: Readings, check: str) -> Remark:
    """The one remark of a check."""
    found = [remark for remark in remarks(readings) if remark.check == check]
    assert len(found) == 1, found
    return found[0]


def levels(readings: Readings) -> dict[str, Level]:
    """The gravest level of every check that says something."""
    return {remark.check: remark.level for remark in reversed(remarks(readings))}


def asked(readings: Readings) -> set[str]:
    """The checks that ask or warn."""
    return {check for check, level in levels(readings).items() if level is not Level.FINE}


FIGURES: Final = tuple(each.name for each in fields(Readings) if each.name not in ("fuel", "meter"))

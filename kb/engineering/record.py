"""Which figures does a handover record hold, and between what bounds is each possible at all?"""

from collections.abc import Mapping
from dataclasses import dataclass, fields
from math import isfinite
from types import MappingProxyType
from typing import Final

from kb.engineering import combustion, flue, gas, heat, vessel
from kb.engineering.span import Span


@dataclass(frozen=True, slots=True)
class Readings:
    """The figures of one handover, as far as they are filled in; None is a figure not yet written.

    `fuel` is a home's fact: natural-gas, lpg or oil; `meter` is metric or imperial.
    A name's end is its unit: `_kw`, `_bar`, `_l`, `_m`, `_mbar`, `_s`, `_ppm`, `_c`, `_lpm`; `co2_` and `o2_` are %.
    `maker_…` are the limits that the appliance's own instructions set, where they set one.
    """

    fuel: str | None = None
    meter: str = "metric"
    input_net_kw: float | None = None
    input_gross_kw: float | None = None
    output_kw: float | None = None
    dhw_kw: float | None = None
    cold_bar: float | None = None
    hot_bar: float | None = None
    static_m: float | None = None
    charge_bar: float | None = None
    vessel_l: float | None = None
    system_l: float | None = None
    relief_bar: float | None = None
    standing_mbar: float | None = None
    at_meter_mbar: float | None = None
    at_appliance_mbar: float | None = None
    drop_mbar: float | None = None
    gas_volume: float | None = None
    gas_s: float | None = None
    cv: float | None = None
    co_high_ppm: float | None = None
    co2_high: float | None = None
    ratio_high: float | None = None
    co_low_ppm: float | None = None
    co2_low: float | None = None
    ratio_low: float | None = None
    maker_co_ppm: float | None = None
    maker_ratio: float | None = None
    intake_o2: float | None = None
    intake_co2: float | None = None
    flow_c: float | None = None
    return_c: float | None = None
    heating_lpm: float | None = None
    dhw_lpm: float | None = None
    cold_in_c: float | None = None
    hot_out_c: float | None = None
    flue_straight_m: float | None = None
    flue_bends_90: float | None = None
    flue_bend_90_m: float | None = None
    flue_bends_45: float | None = None
    flue_bend_45_m: float | None = None
    flue_max_m: float | None = None


@dataclass(frozen=True, slots=True)
class Bounds:
    """What a figure is called, between what bounds it is possible, and what is usual, for a guess at a slip."""

    label: str
    possible: Span
    usual: Span


def _bounds(label: str, possible: Span, low: float, high: float) -> Bounds:
    return Bounds(label, possible, Span(low, high, possible.unit))


_KW: Final = Span(1, 300, "kW")
_BAR: Final = Span(0, 6, "bar")
_MBAR: Final = Span(0, 200, "mbar")
_RATIO: Final = Span(0, 1, "")
_C: Final = Span(1, 100, "°C")
_FEET_USUAL: Final = (0.3, 5.0)

BOUNDS: Final[Mapping[str, Bounds]] = MappingProxyType(
    {
        "input_net_kw": _bounds("input on the plate, net", _KW, 8, 45),
        "input_gross_kw": _bounds("input on the plate, gross", _KW, 8, 50),
        "output_kw": _bounds("output on the plate", _KW, 6, 45),
        "dhw_kw": _bounds("hot water output on the plate", _KW, 15, 45),
        "cold_bar": _bounds("cold fill", _BAR, 0.8, 1.8),
        "hot_bar": _bounds("pressure when hot", _BAR, 1.2, 2.5),
        "static_m": _bounds("height of the system", Span(0, 30, "m"), 1, 9),
        "charge_bar": _bounds("vessel charge", vessel.CHARGE, 0.5, 1.5),
        "vessel_l": _bounds("vessel", Span(1, 300, "l"), 6, 35),
        "system_l": _bounds("water in the system", Span(5, 3000, "l"), 40, 300),
        "relief_bar": _bounds("relief valve", Span(1, 10, "bar"), 3, 3),
        "standing_mbar": _bounds("standing pressure", _MBAR, 20, 45),
        "at_meter_mbar": _bounds("working pressure at the meter", _MBAR, 18, 42),
        "at_appliance_mbar": _bounds("working pressure at the appliance", _MBAR, 16, 42),
        "drop_mbar": _bounds("pressure drop", Span(-100, 200, "mbar"), 0, 2.5),
        "gas_volume": _bounds("gas through the meter", gas.VOLUME, 0.01, 0.12),
        "gas_s": _bounds("time of the gas rate", gas.SECONDS, 30, 300),
        "cv": _bounds("calorific value", Span(30, 130, "MJ/m³"), 37.5, 43),
        "co_high_ppm": _bounds("CO at high rate", combustion.CO, 1, 200),
        "co2_high": _bounds("CO₂ at high rate", combustion.CO2, 8, 11.5),
        "ratio_high": _bounds("CO/CO₂ at high rate", _RATIO, 0.0001, 0.004),
        "co_low_ppm": _bounds("CO at low rate", combustion.CO, 1, 200),
        "co2_low": _bounds("CO₂ at low rate", combustion.CO2, 7.5, 11.5),
        "ratio_low": _bounds("CO/CO₂ at low rate", _RATIO, 0.0001, 0.004),
        "maker_co_ppm": _bounds("maker's limit of CO", Span(1, 5000, "ppm"), 100, 1000),
        "maker_ratio": _bounds("maker's limit of CO/CO₂", Span(0.0001, 0.1, ""), 0.001, 0.008),
        "intake_o2": _bounds("O₂ at the air intake", Span(0, 21.5, "%"), 20.6, 21),
        "intake_co2": _bounds("CO₂ at the air intake", Span(0, 15, "%"), 0, 0.2),
        "flow_c": _bounds("heating flow", _C, 35, 80),
        "return_c": _bounds("heating return", _C, 25, 65),
        "heating_lpm": _bounds("heating flow rate", heat.FLOW, 5, 35),
        "dhw_lpm": _bounds("hot water flow", heat.FLOW, 5, 20),
        "cold_in_c": _bounds("cold water in", Span(0.5, 100, "°C"), 4, 22),
        "hot_out_c": _bounds("hot water out", Span(0.5, 100, "°C"), 38, 60),
        "flue_straight_m": _bounds("straight flue", flue.LENGTH, 0.3, 12),
        "flue_bends_90": _bounds("flue bends of 90°", flue.BENDS, 0, 5),
        "flue_bend_90_m": _bounds("length a 90° bend counts", flue.BEND, 0.5, 2.5),
        "flue_bends_45": _bounds("flue bends of 45°", flue.BENDS, 0, 6),
        "flue_bend_45_m": _bounds("length a 45° bend counts", flue.BEND, 0.3, 1.5),
        "flue_max_m": _bounds("longest flue allowed", flue.LENGTH, 3, 30),
    }
)
"""Every figure's bounds; what is usual is common practice for homes."""

_FEET: Final = Bounds("gas through the meter", gas.FEET, Span(*_FEET_USUAL, "ft³"))


def bounds(readings: Readings, name: str) -> Bounds:
    """The bounds of a figure of this record."""
    return _FEET if name == "gas_volume" and readings.meter == "imperial" else BOUNDS[name]


def written(readings: Readings) -> dict[str, float]:
    """The figures that are filled in, possible or not."""
    values = {each.name: getattr(readings, each.name) for each in fields(readings) if each.name in BOUNDS}
    return {name: value for name, value in values.items() if value is not None}


def sound(readings: Readings, *names: str) -> tuple[float, ...] | None:
    """These figures, or None unless all of them are filled in and possible."""
    found = written(readings)
    if all(name in found and found[name] in bounds(readings, name).possible for name in names):
        return tuple(found[name] for name in names)
    return None


def burnt(readings: Readings) -> gas.Gas | None:
    """The gas that the appliance burns, or None for oil and while the fuel is not known."""
    return gas.GASES.get(readings.fuel or "")


def real(value: float | None) -> float | None:
    """A figure as it was written, however far out, if it is a number at all."""
    return value if value is not None and isfinite(value) else None

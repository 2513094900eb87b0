"""Calculations about gas: the rate by meter and stopwatch, and the drop from meter to appliance."""

from types import MappingProxyType
from typing import Final

from kb.engineering import gas, supply
from kb.engineering.calculation import FUEL, Calculation, Choice, Figure, Given, Output, Result
from kb.engineering.span import Span, figure

METER: Final = Choice(
    "meter",
    "Meter counts in",
    MappingProxyType({"metric": "cubic metres (m³)", "imperial": "cubic feet (ft³)"}),
    "metric",
)
MILLIBAR: Final = Span(0, 200, "mbar")
_STEP: Final = MappingProxyType({"metric": 0.001, "imperial": 0.01})
"""The last digit that a domestic meter usually shows, in its own unit (common practice)."""


def _rate(given: Given) -> Result:
    burnt = gas.gas(given.choice("fuel"))
    imperial = given.choice("meter") == "imperial"
    volume, seconds = given["volume"], given["seconds"]
    m3 = gas.cubic_metres(volume) if imperial else volume
    value = given.get("cv") or burnt.gross
    gross = gas.kw_gross(m3, seconds, value)
    net = gas.net(gross, burnt.over_net)
    start = f"{figure(volume)} ft³ × {figure(gas.CUBIC_FOOT, 5)} = {figure(m3)} m³"
    step = _STEP[given.choice("meter")] / volume * 100
    return Result(
        (
            Output("gross", "Heat input, gross", gross, "kW"),
            Output("net", "Heat input, net", net, "kW"),
            Output("hourly", "Gas", m3 * 3600 / seconds, "m³/h"),
            Output("step", "One step of the meter's last digit", step, "%", 2),
        ),
        (
            *([start] if imperial else []),
            f"{figure(m3)} m³ in {figure(seconds)} s × {figure(value)} MJ/m³ = {figure(gross, 3)} kW gross",
            f"{figure(gross, 3)} ÷ {figure(burnt.over_net)} = {figure(net, 3)} kW net",
        ),
        _rate_notes(given, value),
    )


def _rate_notes(given: Given, value: float) -> tuple[str, ...]:
    taken = f"No calorific value was given: {figure(value)} MJ/m³ was taken. The supplier's figure is better."
    usual = "Nothing else may burn gas meanwhile. Compare with the plate, gross with gross; ±5 % is usual."
    return (usual,) if given.get("cv") else (taken, usual)


def _drop(given: Given) -> Result:
    meter, appliance = given["at-meter"], given["at-appliance"]
    bands = supply.BANDS[given.choice("fuel")]
    lost = supply.drop(meter, appliance)
    usual = (
        f"Usual at the meter: {figure(bands.low)} to {figure(bands.high)} mbar, a drop of at most {bands.drop} mbar."
    )
    return Result(
        (Output("drop", "Drop", lost, "mbar"),),
        (f"{figure(meter)} − {figure(appliance)} = {figure(lost, 3)} mbar",),
        (usual, "Read both with every appliance on full. The maker's inlet pressure wins."),
    )


RATE: Final = Calculation(
    "gas-rate",
    "Gas rate",
    "How much heat goes into the appliance, by meter and stopwatch?",
    (
        FUEL,
        METER,
        Figure(
            "volume",
            "Gas through the meter",
            gas.VOLUME,
            "Second meter reading less the first.",
            spans={"meter=imperial": gas.FEET},
        ),
        Figure("seconds", "Time", gas.SECONDS, "A minute on a metric meter, two or a whole turn on an imperial one."),
        Figure(
            "cv",
            "Calorific value, gross",
            gas.GASES["natural-gas"].span,
            "From the supplier or a bill.",
            may_lack=True,
            spans={"fuel=lpg": gas.GASES["lpg"].span},
        ),
    ),
    _rate,
    (gas.kw_gross, gas.net, gas.cubic_metres),
)
DROP: Final = Calculation(
    "gas-drop",
    "Gas pressure drop",
    "How much working pressure is lost between meter and appliance?",
    (
        FUEL,
        Figure("at-meter", "Working pressure at the meter", MILLIBAR),
        Figure("at-appliance", "Working pressure at the appliance", MILLIBAR),
    ),
    _drop,
    (supply.drop,),
)
ALL: Final = (RATE, DROP)

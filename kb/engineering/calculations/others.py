"""Calculations about sensors and flues."""

from typing import Final

from kb.engineering import flue, sensors
from kb.engineering.calculation import Calculation, Figure, Given, Output, Result
from kb.engineering.span import figure

_NOMINAL: Final = Figure("nominal", "Resistance at 25 °C", sensors.OHMS, "10 000 Ω is usual.", sensors.NOMINAL)
_BETA: Final = Figure("beta", "B value", sensors.BETAS, "From the maker; 3977 K is usual.", sensors.BETA)
_TABLE: Final = "One B value is within 0.5 K from 10 to 90 °C. The maker's table wins."


def _resistance(given: Given) -> Result:
    celsius, nominal, beta = given["celsius"], given["nominal"], given["beta"]
    ohms = sensors.resistance(celsius, nominal, beta)
    inner = f"{figure(beta)} × (1 ÷ {figure(celsius + sensors.KELVIN, 5)} − 1 ÷ 298.15)"
    return Result(
        (Output("ohms", "Resistance", ohms, "Ω", 4),),
        (f"{figure(nominal)} Ω × exp({inner}) = {figure(ohms)} Ω",),
        (_TABLE,),
    )


def _temperature(given: Given) -> Result:
    ohms, nominal, beta = given["ohms"], given["nominal"], given["beta"]
    celsius = sensors.temperature(ohms, nominal, beta)
    inner = f"1 ÷ 298.15 + ln({figure(ohms)} ÷ {figure(nominal)}) ÷ {figure(beta)}"
    return Result(
        (Output("celsius", "Temperature", celsius, "°C"),),
        (f"1 ÷ ({inner}) − 273.15 = {celsius:.1f} °C",),
        (_TABLE,),
    )


def _length(given: Given) -> Result:
    straight, most = given["straight"], given.get("most")
    nineties, each_90 = given["bends-90"], given["each-90"]
    halves, each_45 = given["bends-45"], given["each-45"]
    total = flue.equivalent_length(straight, nineties, each_90, halves, each_45)
    outputs = [Output("length", "Equivalent length", total, "m")]
    bends = f"{figure(nineties)} × {figure(each_90)} m + {figure(halves)} × {figure(each_45)} m"
    working = [f"{figure(straight)} m + {bends} = {figure(total, 3)} m"]
    if most is not None:
        outputs.append(Output("spare", "Left to the maker's maximum", most - total, "m"))
        working.append(f"{figure(most)} − {figure(total, 3)} = {figure(most - total, 3)} m left to the maker's maximum")
    return Result(tuple(outputs), tuple(working), ("What a bend counts is in the maker's instructions.",))


RESISTANCE: Final = Calculation(
    "sensor-resistance",
    "Sensor: resistance",
    "Which resistance should a temperature sensor show?",
    (Figure("celsius", "Temperature", sensors.TEMPERATURE, "By a clip thermometer."), _NOMINAL, _BETA),
    _resistance,
    (sensors.resistance,),
)
TEMPERATURE: Final = Calculation(
    "sensor-temperature",
    "Sensor: temperature",
    "Which temperature does a sensor's resistance mean?",
    (Figure("ohms", "Resistance", sensors.OHMS, "Measured with the sensor unplugged."), _NOMINAL, _BETA),
    _temperature,
    (sensors.temperature,),
)
LENGTH: Final = Calculation(
    "flue-length",
    "Flue length",
    "How long is the flue with its bends, and may it be that long?",
    (
        Figure("straight", "Straight lengths", flue.LENGTH),
        Figure("bends-90", "Bends of 90°", flue.BENDS, "", 0.0),
        Figure("each-90", "One 90° bend counts", flue.BEND, "From the maker's instructions.", 0.0),
        Figure("bends-45", "Bends of 45°", flue.BENDS, "", 0.0),
        Figure("each-45", "One 45° bend counts", flue.BEND, "From the maker's instructions.", 0.0),
        Figure("most", "Maker's maximum", flue.LENGTH, "For this flue kind and size.", may_lack=True),
    ),
    _length,
    (flue.equivalent_length,),
)
ALL: Final = (RESISTANCE, TEMPERATURE, LENGTH)

"""Calculations about the heat that water carries: at a hot tap, and round the radiators."""

from typing import Final

from kb.engineering import heat
from kb.engineering.calculation import Calculation, Figure, Given, Output, Result
from kb.engineering.span import figure
from kb.engineering.water import TEMPERATURE, density

_FLOW: Final = Figure("flow", "Flow of water", heat.FLOW, "By jug and stopwatch: litres × 60 ÷ seconds.")
_KW: Final = Figure("kw", "Heat", heat.POWER, "What the appliance puts into the water.")
_COLD: Final = Figure("cold", "Cold in", TEMPERATURE)
_HOT: Final = Figure("hot", "Hot out", TEMPERATURE)
_OUT: Final = Figure("flow-at", "Heating flow", TEMPERATURE, "Water on its way to the radiators.")
_BACK: Final = Figure("return-at", "Heating return", TEMPERATURE, "Water on its way back.")


def _power(flow: float, cold: float, hot: float, names: tuple[str, str]) -> Result:
    rise = heat.between(cold, hot, names)
    kw = heat.kilowatts(flow, rise, cold)
    each = density(cold) / 1000
    return Result(
        (Output("kw", "Heat", kw, "kW"), Output("rise", "Difference", rise, "K")),
        (
            f"{figure(hot)} − {figure(cold)} °C = {figure(rise, 3)} K",
            f"{figure(flow)} l/min × {figure(each)} kg/l ÷ 60 × {heat.SPECIFIC_HEAT} kJ/kgK × {figure(rise, 3)} K "
            f"= {figure(kw, 3)} kW",
        ),
    )


def _litres(kw: float, cold: float, hot: float, names: tuple[str, str]) -> Result:
    rise = heat.between(cold, hot, names)
    flow = heat.litres(kw, rise, cold)
    each = density(cold) / 1000
    return Result(
        (Output("flow", "Flow of water", flow, "l/min"), Output("rise", "Difference", rise, "K")),
        (
            f"{figure(hot)} − {figure(cold)} °C = {figure(rise, 3)} K",
            f"{figure(kw)} kW × 60 ÷ ({figure(each)} kg/l × {heat.SPECIFIC_HEAT} kJ/kgK × {figure(rise, 3)} K) "
            f"= {figure(flow, 3)} l/min",
        ),
    )


def _tap_power(given: Given) -> Result:
    return _power(given["flow"], given["cold"], given["hot"], ("cold in", "hot out"))


def _tap_flow(given: Given) -> Result:
    return _litres(given["kw"], given["cold"], given["hot"], ("cold in", "hot out"))


def _tap_rise(given: Given) -> Result:
    kw, flow, cold = given["kw"], given["flow"], given["cold"]
    rise = heat.rise(kw, flow, cold)
    return Result(
        (Output("rise", "Rise", rise, "K"), Output("hot", "Hot out", cold + rise, "°C")),
        (
            f"{figure(kw)} kW × 60 ÷ ({figure(flow)} l/min × {figure(density(cold) / 1000)} kg/l "
            f"× {heat.SPECIFIC_HEAT} kJ/kgK) = {figure(rise, 3)} K",
        ),
    )


def _circuit_power(given: Given) -> Result:
    return _power(given["flow"], given["return-at"], given["flow-at"], ("the return", "the flow"))


def _circuit_flow(given: Given) -> Result:
    return _litres(given["kw"], given["return-at"], given["flow-at"], ("the return", "the flow"))


TAP_POWER: Final = Calculation(
    "hot-water-power",
    "Hot water: heat",
    "How many kilowatts reach the tap?",
    (_FLOW, _COLD, _HOT),
    _tap_power,
    (heat.kilowatts, heat.between),
)
TAP_FLOW: Final = Calculation(
    "hot-water-flow",
    "Hot water: litres a minute",
    "How many litres a minute can be heated?",
    (_KW, _COLD, _HOT),
    _tap_flow,
    (heat.litres, heat.between),
)
TAP_RISE: Final = Calculation(
    "hot-water-rise",
    "Hot water: rise",
    "How much warmer does the water get?",
    (_KW, _FLOW, _COLD),
    _tap_rise,
    (heat.rise,),
)
CIRCUIT_POWER: Final = Calculation(
    "heating-power",
    "Heating: heat",
    "How many kilowatts go round the radiators?",
    (_FLOW, _OUT, _BACK),
    _circuit_power,
    (heat.kilowatts, heat.between),
)
CIRCUIT_FLOW: Final = Calculation(
    "heating-flow",
    "Heating: litres a minute",
    "How much water must the pump move?",
    (_KW, _OUT, _BACK),
    _circuit_flow,
    (heat.litres, heat.between),
)
ALL: Final = (TAP_POWER, TAP_FLOW, TAP_RISE, CIRCUIT_POWER, CIRCUIT_FLOW)

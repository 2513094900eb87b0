"""Calculations about water: how it grows, how its height presses, how fast it is lost."""

from typing import Final

from kb.engineering import losses, vessel, water
from kb.engineering.calculation import Calculation, Figure, Given, Output, Result
from kb.engineering.span import Span, figure

COLD: Final = Figure("cold", "Water when cold", water.TEMPERATURE, "The temperature it was filled at.", water.COLD)
HOT: Final = Figure("hot", "Water when hot", water.TEMPERATURE, "The hottest flow; 80 °C is the safe guess.", 80.0)
SYSTEM: Final = Figure(
    "system", "Water in the system", vessel.SYSTEM, "Radiators, pipes and appliance; about 10 l a kW is a guess."
)
VESSEL: Final = Figure("vessel", "Expansion vessel", vessel.VESSEL, "As its label says.")
CHARGE: Final = Figure("charge", "Vessel charge", vessel.CHARGE, "Read at the vessel with the water side at zero.")


def _growth(given: Given) -> Result:
    cold, hot, system = given["cold"], given["hot"], given["system"]
    share = water.expansion(cold, hot)
    litres = vessel.growth(system, cold, hot)
    return Result(
        (
            Output("share", "Growth", share * 100, "%"),
            Output("litres", "Growth of the system", litres, "l"),
            Output("density-cold", "Density cold", water.density(cold), "kg/m³", 5),
            Output("density-hot", "Density hot", water.density(hot), "kg/m³", 5),
        ),
        (
            f"{figure(water.density(cold), 5)} kg/m³ at {figure(cold)} °C ÷ {figure(water.density(hot), 5)} kg/m³ "
            f"at {figure(hot)} °C − 1 = {figure(share * 100, 3)} %",
            f"{figure(system)} l × {figure(share * 100, 3)} % = {figure(litres, 3)} l",
        ),
        ("Antifreeze makes water grow more: ask its maker.",),
    )


def _head(given: Given) -> Result:
    metres, at = given["height"], given["at"]
    bar = water.head(metres, at)
    return Result(
        (
            Output("bar", "Static head", bar, "bar"),
            Output("charge-from", "Vessel charge, from", bar + 0.2, "bar"),
            Output("charge-to", "Vessel charge, to", bar + 0.3, "bar"),
        ),
        (
            f"{figure(metres)} m × {figure(water.density(at), 5)} kg/m³ × {water.GRAVITY} m/s² ÷ 100 000 "
            f"= {figure(bar, 3)} bar",
            f"{figure(bar, 3)} bar + 0.2 to 0.3 bar = {figure(bar + 0.2, 3)} to {figure(bar + 0.3, 3)} bar of charge",
        ),
        ("Commonly 0.75 to 1.0 bar of charge, and the cold fill 0.2 to 0.3 bar above it; the maker's figure wins.",),
    )


def _height(given: Given) -> Result:
    bar, at = given["bar"], given["at"]
    metres = water.metres_of(bar, at)
    shown = f"{figure(bar)} bar × 100 000 ÷ ({figure(water.density(at), 5)} kg/m³ × {water.GRAVITY} m/s²)"
    return Result((Output("height", "Height", metres, "m"),), (f"{shown} = {figure(metres, 3)} m",))


def _loss(given: Given) -> Result:
    before, after, hours = given["before"], given["after"], given["hours"]
    bar = (before - after) * 24 / hours
    outputs = [Output("bar", "Loss", bar, "bar a day")]
    working = [f"({figure(before)} − {figure(after)}) bar × 24 ÷ {figure(hours)} h = {figure(bar, 3)} bar a day"]
    size, charge = given.get("vessel"), given.get("charge")
    if size is not None and charge is not None:
        litres = losses.litres_a_day(before, after, hours, size, charge)
        outputs.append(Output("litres", "Loss of water", litres, "l a day"))
        working += [
            f"The vessel holds {figure(vessel.held(size, charge, before), 3)} l at {figure(before)} bar "
            f"and {figure(vessel.held(size, charge, after), 3)} l at {figure(after)} bar",
            f"The difference × 24 ÷ {figure(hours)} h = {figure(litres, 3)} l a day",
        ]
    return Result(
        tuple(outputs),
        tuple(working),
        ("Take both readings cold. More than 0.5 bar a day is a leak to find before anything is topped up.",),
    )


_AT: Final = Figure("at", "Water temperature", water.TEMPERATURE, "", water.COLD)

GROWTH: Final = Calculation(
    "water-growth",
    "Growth of water",
    "How much does the water of a system grow when it is heated?",
    (SYSTEM, COLD, HOT),
    _growth,
    (water.density, water.expansion, vessel.growth),
)
HEAD: Final = Calculation(
    "static-head",
    "Static head",
    "How hard does the water above the gauge press?",
    (Figure("height", "Height above the gauge", water.HEIGHT, "From the gauge to the highest radiator's top."), _AT),
    _head,
    (water.head,),
)
HEIGHT: Final = Calculation(
    "head-height",
    "Height of a pressure",
    "How high a column of water makes a pressure?",
    (Figure("bar", "Pressure", water.HEAD), _AT),
    _height,
    (water.metres_of,),
)
LOSS: Final = Calculation(
    "pressure-loss",
    "Loss of pressure",
    "How fast is pressure, and water, being lost?",
    (
        Figure("before", "First cold reading", vessel.PRESSURE),
        Figure("after", "Second cold reading", vessel.PRESSURE),
        Figure("hours", "Time between", Span(0.1, 10_000, "h")),
        Figure("vessel", "Expansion vessel", vessel.VESSEL, "For the litres.", may_lack=True),
        Figure("charge", "Vessel charge", vessel.CHARGE, "For the litres.", may_lack=True),
    ),
    _loss,
    (losses.litres_a_day, vessel.held),
)
ALL: Final = (GROWTH, HEAD, HEIGHT, LOSS)

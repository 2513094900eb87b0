"""Calculations about combustion: the analyser's ratio, the air, the dew point and the condensate."""

from typing import Final

from kb.engineering import combustion
from kb.engineering.calculation import FUEL, Calculation, Figure, Given, Output, Result
from kb.engineering.combustion import Fuel
from kb.engineering.span import CannotWork, figure
from kb.engineering.steam import TEMPERATURE

CO: Final = Figure("co", "CO", combustion.CO, "As the analyser shows it.")
CO2: Final = Figure("co2", "CO₂", combustion.CO2, "As the analyser shows it, dry.")
_O2: Final = Figure("o2", "O₂", combustion.O2, "Instead of CO₂.", may_lack=True)
_EITHER: Final = Figure("co2", "CO₂", combustion.CO2, "Or give O₂.", may_lack=True)


def _ratio(given: Given) -> Result:
    co, co2 = given["co"], given["co2"]
    value = combustion.ratio(co, co2)
    return Result(
        (Output("ratio", "CO/CO₂", value, "", 2),),
        (f"{figure(co)} ppm ÷ ({figure(co2)} % × 10 000) = {value:.4f}",),
        (
            "The maker's figure wins. Where there is none, a new condensing boiler is held to 350 ppm and 0.0040.",
            "In service, 0.0080 is the usual action level: ask the edition of BS 7967 in force.",
        ),
    )


def _air(given: Given) -> Result:
    fuel = combustion.fuel_of(given.choice("fuel"))
    highest = combustion.co2_max(fuel)
    co2, working = _co2(given, fuel)
    air = combustion.air_from_co2(fuel, co2)
    per = f"({fuel.carbon} mol ÷ {figure(co2, 3)} % − {figure(fuel.dry)} mol) ÷ {figure(fuel.air)} mol of air"
    return Result(
        (
            Output("excess", "Excess air", (air - 1) * 100, "%"),
            Output("lambda", "Air over what is needed (λ)", air, "", 4),
            Output("co2-max", "Highest CO₂ of this fuel", highest, "%", 4),
            Output("co2", "CO₂", co2, "%"),
        ),
        (*working, f"λ = 1 + {per} = {figure(air)}", f"Excess air: {figure((air - 1) * 100, 3)} %"),
    )


def _co2(given: Given, fuel: Fuel) -> tuple[float, tuple[str, ...]]:
    """The CO₂ that was given, or that goes with the O₂ that was."""
    co2, o2 = given.get("co2"), given.get("o2")
    if co2 is not None and o2 is not None:
        raise CannotWork("CO₂ or O₂", "both", "Leave one out, then compare with the other")
    if co2 is not None:
        return co2, ()
    if o2 is None:
        raise CannotWork("CO₂ or O₂", "neither", "Give one of them from the analyser")
    found, highest = combustion.co2_from_o2(fuel, o2), combustion.co2_max(fuel)
    return found, (f"{figure(highest)} % × (20.946 − {figure(o2)}) ÷ 20.946 = {figure(found, 3)} % CO₂",)


def _dew(given: Given) -> Result:
    fuel = combustion.fuel_of(given.choice("fuel"))
    air = combustion.air_from_co2(fuel, given["co2"])
    dew = combustion.dew_point(fuel, air)
    moist = combustion.dew_point(fuel, air, combustion.humidity_of(20, 0.6))
    outputs = [Output("dew", "Dew point", dew, "°C"), Output("moist", "With air of 20 °C and 60 %", moist, "°C")]
    working = [f"λ is {figure(air, 3)} at {figure(given['co2'])} % CO₂; the products begin to condense at {dew:.1f} °C"]
    back = given.get("return")
    if back is not None:
        does = "it condenses" if back < dew else "it does not condense"
        outputs.append(Output("below", "Return below the dew point", dew - back, "K"))
        working.append(f"{dew:.1f} − {figure(back)} °C return = {dew - back:.1f} K: {does}")
    return Result(tuple(outputs), tuple(working))


def _condensate(given: Given) -> Result:
    fuel = combustion.fuel_of(given.choice("fuel"))
    gross, leaving = given["gross"], given["leaving"]
    most = combustion.condensate_most(fuel, gross)
    share = combustion.condensed(fuel, combustion.air_from_co2(fuel, given["co2"]), leaving)
    each = combustion.condensate_most(fuel, 1)
    return Result(
        (
            Output("most", "The most there can be", most, "l/h"),
            Output("likely", "At this temperature, at best", most * share, "l/h"),
            Output("share", "Share that condenses", share * 100, "%"),
        ),
        (
            f"{figure(gross, 3)} kW gross × {figure(each, 3)} l/kWh = {figure(most, 3)} l/h when all of it condenses",
            f"Products that leave at {figure(leaving, 3)} °C, {figure(given['co2'])} % CO₂: "
            f"{figure(share * 100, 3)} % condenses, {figure(most * share, 2)} l/h",
        ),
        ("Products leave some kelvins above the return, so this is the best case.",),
    )


RATIO: Final = Calculation(
    "co-ratio", "CO/CO₂ ratio", "How clean is the flame?", (CO, CO2), _ratio, (combustion.ratio,)
)
AIR: Final = Calculation(
    "excess-air",
    "Excess air",
    "How much more air than it needs does the flame get?",
    (FUEL, _EITHER, _O2),
    _air,
    (combustion.air_from_co2, combustion.co2_max, combustion.co2_from_o2),
)
DEW: Final = Calculation(
    "dew-point",
    "Dew point",
    "Do the products condense at this return temperature?",
    (FUEL, CO2, Figure("return", "Return", TEMPERATURE, "Water back to the boiler.", may_lack=True)),
    _dew,
    (combustion.dew_point, combustion.air_from_co2, combustion.humidity_of),
)
CONDENSATE: Final = Calculation(
    "condensate",
    "Condensate",
    "How many litres an hour run out of the condensate pipe?",
    (
        FUEL,
        Figure("gross", "Heat input, gross", combustion.GROSS_KW, "From the gas rate."),
        CO2,
        Figure("leaving", "Products leave at", TEMPERATURE, "At best the return temperature."),
    ),
    _condensate,
    (combustion.condensate_most, combustion.condensed),
)
ALL: Final = (RATIO, AIR, DEW, CONDENSATE)

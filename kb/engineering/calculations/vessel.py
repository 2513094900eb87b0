"""Calculations about the expansion vessel, all by Boyle's law."""

from typing import Final

from kb.engineering import vessel
from kb.engineering.calculation import Calculation, Figure, Given, Output, Result
from kb.engineering.calculations.water import CHARGE, COLD, HOT, SYSTEM, VESSEL
from kb.engineering.span import Span, figure

FILL: Final = Figure("fill", "Cold fill", vessel.PRESSURE, "What the gauge shows with everything cold.")
HIGHEST: Final = Figure("highest", "Highest when hot", vessel.PRESSURE, "Usually 0.5 bar below the relief valve.", 2.5)
RELIEF: Final = Figure("relief", "Relief valve", Span(1, 10, "bar"), "As stamped on it.", 3.0)


def _holds(given: Given) -> Result:
    size, charge, bar = given["vessel"], given["charge"], given["bar"]
    litres = vessel.held(size, charge, bar)
    outputs = (
        Output("litres", "Water held", litres, "l"),
        Output("share", "Share of the vessel", litres / size * 100, "%"),
    )
    if bar <= charge:
        return Result(
            outputs, (f"{figure(bar)} bar is not above the charge of {figure(charge)} bar: no water gets in",)
        )
    shown = f"{figure(size)} l × (1 − {figure(charge + vessel.AIR)} ÷ {figure(bar + vessel.AIR)}) bar absolute"
    return Result(outputs, (f"{shown} = {figure(litres, 3)} l",))


def _size(given: Given) -> Result:
    system, charge, highest = given["system"], given["charge"], given["highest"]
    grown = vessel.growth(system, given["cold"], given["hot"])
    least = vessel.needed(grown, charge, highest)
    with_spare = _with_reserve(system, grown, vessel.acceptance(charge, highest))
    return Result(
        (
            Output("least", "Smallest vessel", least, "l"),
            Output("with-reserve", "With the usual reserve", with_spare, "l"),
            Output("grown", "Growth of the water", grown, "l"),
        ),
        (
            _grows(given, grown),
            f"{figure(grown, 3)} l × ({figure(highest)} + 1) ÷ ({figure(highest)} − {figure(charge)}) "
            f"= {figure(least, 3)} l",
            f"With a reserve of {figure(vessel.reserve(system, with_spare), 3)} l: {figure(with_spare, 3)} l",
        ),
        ("Take the next size up. The charge must match the height of the system.",),
    )


def _with_reserve(system: float, grown: float, share: float) -> float:
    """The vessel that also holds its reserve, which for a small one is a share of itself."""
    small = grown / (share - 0.2) if share > 0.2 else 16.0
    return small if small <= 15 else max((grown + max(3.0, 0.005 * system)) / share, 15.01)


def _hot(given: Given) -> Result:
    fill, charge, size, relief = given["fill"], given["charge"], given["vessel"], given["relief"]
    grown = vessel.growth(given["system"], given["cold"], given["hot"])
    cold = vessel.held(size, charge, fill)
    start = max(fill, charge)
    hot = vessel.hot_pressure(fill, charge, size, grown)
    return Result(
        (
            Output("hot", "Gauge when hot", hot, "bar"),
            Output("rise", "Rise from cold", hot - fill, "bar"),
            Output("margin", "Below the relief valve", relief - hot, "bar"),
        ),
        (
            _grows(given, grown),
            f"Cold, the vessel holds {figure(cold, 3)} l of water and {figure(size - cold, 3)} l of gas "
            f"at {figure(start + vessel.AIR)} bar absolute",
            f"{figure(start + vessel.AIR)} bar × {figure(size - cold, 3)} l ÷ {figure(size - cold - grown, 3)} l "
            f"= {figure(hot + vessel.AIR, 3)} bar absolute = {figure(hot, 3)} bar on the gauge",
            f"{figure(relief)} − {figure(hot, 3)} = {figure(relief - hot, 3)} bar below the relief valve",
        ),
        ("A vessel in a hot case may end about 0.35 bar higher. Keep 0.5 bar below the relief valve.",),
    )


def _highest_fill(given: Given) -> Result:
    charge, size, highest = given["charge"], given["vessel"], given["highest"]
    grown = vessel.growth(given["system"], given["cold"], given["hot"])
    fill = vessel.highest_fill(highest, charge, size, grown)
    held = vessel.held(size, charge, highest)
    return Result(
        (Output("fill", "Highest cold fill", fill, "bar"),),
        (
            _grows(given, grown),
            f"At {figure(highest)} bar the vessel holds {figure(held, 3)} l, so {figure(held - grown, 3)} l may be "
            "in it cold",
            f"{figure(charge + vessel.AIR)} bar × {figure(size)} l ÷ {figure(size - held + grown, 3)} l "
            f"= {figure(fill + vessel.AIR, 3)} bar absolute = {figure(fill, 3)} bar on the gauge",
        ),
    )


def _grows(given: Given, grown: float) -> str:
    return (
        f"{figure(given['system'])} l from {figure(given['cold'])} to {figure(given['hot'])} °C "
        f"grow by {figure(grown, 3)} l"
    )


HOLDS: Final = Calculation(
    "vessel-holds",
    "Water in a vessel",
    "How much water does an expansion vessel hold at a pressure?",
    (VESSEL, CHARGE, Figure("bar", "Pressure", vessel.PRESSURE, "What the gauge shows.")),
    _holds,
    (vessel.held, vessel.acceptance, vessel.absolute),
)
SIZE: Final = Calculation(
    "vessel-size",
    "Size of a vessel",
    "How big must the expansion vessel be?",
    (SYSTEM, CHARGE, HIGHEST, COLD, HOT),
    _size,
    (vessel.needed, vessel.reserve, vessel.growth),
)
HOT_PRESSURE: Final = Calculation(
    "hot-pressure",
    "Pressure when hot",
    "What will the gauge show when the system is hot, and how far is that from the relief valve?",
    (FILL, CHARGE, VESSEL, SYSTEM, COLD, HOT, RELIEF),
    _hot,
    (vessel.hot_pressure, vessel.growth, vessel.absolute),
)
HIGHEST_FILL: Final = Calculation(
    "highest-fill",
    "Highest cold fill",
    "How high may the system be filled cold?",
    (CHARGE, VESSEL, SYSTEM, HIGHEST, COLD, HOT),
    _highest_fill,
    (vessel.highest_fill, vessel.growth),
)
ALL: Final = (HOLDS, SIZE, HOT_PRESSURE, HIGHEST_FILL)

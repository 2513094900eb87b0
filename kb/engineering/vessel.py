"""What does an expansion vessel hold, how big must it be, and what will the gauge say when the system is hot?

Every pressure that goes in or comes out is what a gauge shows, in bar.
Boyle's law wants absolute pressure, so each formula adds the pressure of the air itself.
"""

from typing import Final

from kb.engineering.span import CannotWork, Span, figure, within
from kb.engineering.water import expansion

AIR: Final = 1.0
"""The pressure of the air that a gauge leaves out, in bar, as EN 12828 rounds it; 1.013 adds 0.01 bar to a result."""

PRESSURE: Final = Span(0, 10, "bar")
CHARGE: Final = Span(0, 6, "bar")
VESSEL: Final = Span(0.5, 1000, "l")
SYSTEM: Final = Span(1, 10_000, "l")
BELOW_RELIEF: Final = 0.5
"""How far a hot system should stay below its relief valve, in bar (EN 12828, from memory; common practice)."""


def absolute(gauge: float) -> float:
    """The absolute pressure of a gauge pressure.

    Formula: p(absolute) = p(gauge) + 1.
    Units: bar.
    Range: 0 to 10 bar.
    Errors: the weather and the height above the sea move it by up to 0.1 bar.
    Source: the definition, with the air at 1 bar as EN 12828 takes it.
    """
    return within("a gauge pressure", gauge, PRESSURE) + AIR


def held(vessel: float, charge: float, bar: float) -> float:
    """The water that a vessel holds at a pressure.

    Formula: V(water) = V × (1 − (p₀ + 1) ÷ (p + 1)), and none while p is below p₀.
    Units: vessel and water in l, charge p₀ and pressure p in bar by gauge.
    Range: 0.5 to 1000 l, charge 0 to 6 bar, pressure 0 to 10 bar.
    Errors: the gas is taken to stay at one temperature; nitrogen's own behaviour is under 0.1 %.
    Source: Boyle's law.
    """
    litres, empty = _vessel(vessel, charge)
    return max(0.0, litres * (1 - empty / absolute(bar)))


def acceptance(charge: float, bar: float) -> float:
    """The share of a vessel that water can fill up to a pressure.

    Formula: f = (p − p₀) ÷ (p + 1).
    Units: charge p₀ and pressure p in bar by gauge, f as a share.
    Range: charge 0 to 6 bar, pressure 0 to 10 bar; none while p is below p₀.
    Errors: as for the water held.
    Source: Boyle's law; EN 12828 sizes vessels by it.
    """
    return held(1, charge, bar)


def needed(litres: float, charge: float, bar: float) -> float:
    """The smallest vessel that takes an amount of water without passing a pressure.

    Formula: V = V(water) × (p + 1) ÷ (p − p₀).
    Units: water and vessel in l, charge p₀ and pressure p in bar by gauge.
    Range: the pressure must be above the charge.
    Errors: as for the water held; a reserve is added by whoever asks.
    Source: Boyle's law; EN 12828 sizes vessels by it.
    """
    share = acceptance(charge, bar)
    if share <= 0:
        raise CannotWork(
            f"a highest pressure above the charge of {figure(charge)} bar",
            f"{figure(bar)} bar",
            "See whether the two are swapped",
        )
    return litres / share


def hot_pressure(fill: float, charge: float, vessel: float, grown: float) -> float:
    """The gauge pressure after the water has grown by so many litres.

    Formula: p = (p₀ + 1) × V ÷ (V − V(cold) − V(grown)) − 1, where V(cold) is what the vessel held when cold.
    Units: cold fill, charge and result in bar by gauge, vessel and growth in l.
    Range: the vessel must have gas left; a fill below the charge counts as an empty vessel.
    Errors: usually within 0.1 bar.
    A vessel that warms by 30 K ends about 0.35 bar higher; pipes that give end lower.
    Source: Boyle's law; EN 12828 sizes vessels by it.
    """
    litres, empty = _vessel(vessel, charge)
    gas = litres - held(vessel, charge, fill) - grown
    if gas <= litres * empty / absolute(PRESSURE.high):
        raise CannotWork(
            f"a vessel with room for {figure(grown, 3)} l more",
            f"{figure(litres)} l charged to {figure(charge)} bar and filled to {figure(fill)} bar",
            "It cannot take the growth below 10 bar: the relief valve would lift. "
            "Look at the litres, the charge and the fill",
        )
    return litres * empty / gas - AIR


def highest_fill(highest: float, charge: float, vessel: float, grown: float) -> float:
    """The highest cold fill from which a system stays within a hot pressure.

    Formula: p(cold) = (p₀ + 1) × V ÷ (V − V(held hot) + V(grown)) − 1.
    Units: pressures in bar by gauge, vessel and growth in l.
    Range: the vessel must hold the growth between the charge and the highest pressure.
    Errors: as for the hot pressure.
    Source: Boyle's law turned round; the same as EN 12828's highest starting pressure.
    """
    litres, empty = _vessel(vessel, charge)
    spare = held(vessel, charge, highest) - grown
    if spare < -1e-9:
        raise CannotWork(
            f"a vessel that takes {figure(grown, 3)} l between its charge and {figure(highest)} bar",
            f"{figure(held(vessel, charge, highest), 3)} l",
            "No fill is low enough: the vessel is too small or its charge is wrong",
        )
    return litres * empty / (litres - spare) - AIR


def growth(system: float, cold: float, hot: float) -> float:
    """The litres by which a system's water grows.

    Formula: V(grown) = V(system) × (ρ(cold) ÷ ρ(hot) − 1).
    Units: system and growth in l, temperatures in °C.
    Range: 1 to 10 000 l, 0 to 100 °C, hot at least as warm as cold.
    Errors: as good as the litres of the system are known, often 20 %; inhibitor and antifreeze are left out.
    Source: the definition, with Kell's density.
    """
    if hot < cold:
        raise CannotWork(
            "a hot temperature above the cold one",
            f"{figure(hot)} °C hot and {figure(cold)} °C cold",
            "See whether the two are swapped",
        )
    return within("a system's water", system, SYSTEM) * expansion(cold, hot)


def reserve(system: float, vessel: float) -> float:
    """The spare water a vessel should hold for small losses.

    Formula: 20 % of a vessel of up to 15 l, else 0.5 % of the system and at least 3 l.
    Units: l.
    Range: as for vessel and system.
    Errors: a convention, not physics.
    Source: EN 12828 as trade calculators quote it (from memory; ask the edition in force).
    """
    if within("a vessel", vessel, VESSEL) <= 15:
        return 0.2 * vessel
    return max(3.0, 0.005 * within("a system's water", system, SYSTEM))


def _vessel(vessel: float, charge: float) -> tuple[float, float]:
    """The litres of a vessel and the absolute pressure of its charge."""
    return within("a vessel", vessel, VESSEL), within("a vessel charge", charge, CHARGE) + AIR

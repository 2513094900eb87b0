"""Are the gas pressures usual, and is the drop between meter and appliance small enough?"""

from collections.abc import Iterator
from typing import Final

from kb.engineering.record import BOUNDS, Readings, real, sound
from kb.engineering.remark import Remark, danger, fine, question
from kb.engineering.slips import joined, moved_point
from kb.engineering.span import figure
from kb.engineering.supply import BANDS, Bands, drop

_GAUGES: Final = 0.3
"""How far the drop written may lie from the two pressures' difference, in mbar (judgement)."""

_CALL: Final = "The pressure is not being held back: a regulator has failed. Turn the gas off and report it."


def unheld(readings: Readings) -> Iterator[Remark]:
    """No pressure is so high that a regulator cannot be holding it; an unknown fuel is given propane's lines."""
    bands = BANDS.get(readings.fuel or "", BANDS["lpg"])
    for name in ("standing_mbar", "at_meter_mbar", "at_appliance_mbar"):
        value = real(getattr(readings, name))
        if value is not None and value > _most(name, bands):
            told = f"The {BOUNDS[name].label} is {figure(value)} mbar, far above the usual {bands.nominal:g}."
            slip = moved_point(value, "mbar", lambda other: bands.low - bands.drop <= other <= bands.standing)
            yield danger("unheld-pressure", (name,), joined(told, _CALL), slip=slip)


def standing(readings: Readings) -> Iterator[Remark]:
    """The standing pressure shows that the regulator shuts."""
    value, bands = real(readings.standing_mbar), BANDS.get(readings.fuel or "")
    if value is None or bands is None or value > bands.standing_danger:
        return
    name = ("standing_mbar",)
    told = f"The standing pressure is {figure(value)} mbar; up to about {bands.standing:g} is usual."
    slip = moved_point(value, "mbar", lambda other: bands.low <= other <= bands.standing)
    if value > bands.standing:
        yield question("standing-pressure", name, f"{told} Does it creep up? Then report it to supplier or network.")
    elif 0 <= value < bands.low:
        yield question("standing-pressure", name, joined(told, slip, "Is it so low with nothing burning?"))


def working(readings: Readings) -> Iterator[Remark]:
    """The working pressure at the meter, everything on full, lies in its band."""
    value, bands = real(readings.at_meter_mbar), BANDS.get(readings.fuel or "")
    if value is None or bands is None or value > bands.working_danger:
        return
    name = ("at_meter_mbar",)
    told = f"The working pressure at the meter is {figure(value)} mbar; {bands.low:g} to {bands.high:g} mbar is usual."
    slip = moved_point(value, "mbar", lambda other: bands.low <= other <= bands.high)
    if value > bands.high:
        yield question("working-pressure", name, f"{told} Was everything on full? Report it if it stays.")
    elif 0 <= value < bands.low:
        why = "Was everything on full? Below the band at the meter is for supplier or network to hear."
        yield question("working-pressure", name, joined(told, slip, why))


def standing_above_working(readings: Readings) -> Iterator[Remark]:
    """Pressure falls when gas flows."""
    both = sound(readings, "standing_mbar", "at_meter_mbar")
    if both is not None and both[1] > both[0] + _GAUGES:
        told = (
            f"The working pressure of {figure(both[1])} mbar is above the standing pressure of {figure(both[0])} mbar."
        )
        yield question("standing-working", ("standing_mbar", "at_meter_mbar"), f"{told} Are the two swapped?")


def pipe_drop(readings: Readings) -> Iterator[Remark]:
    """The pipe from meter to appliance loses at most 1 mbar on natural gas, about 2.5 on propane."""
    both, bands = sound(readings, "at_meter_mbar", "at_appliance_mbar"), BANDS.get(readings.fuel or "")
    names: tuple[str, ...]
    if both is not None:
        names = ("at_meter_mbar", "at_appliance_mbar")
        lost = drop(*both)
        line = f"{figure(both[0])} − {figure(both[1])} = {figure(lost, 3)} mbar"
        yield from _as_written(readings, lost, line)
    else:
        names, lost, line = ("drop_mbar",), real(readings.drop_mbar) or 0.0, ""
        if sound(readings, "drop_mbar") is None:
            return
    shown = (line,) if line else ()
    if lost < -_GAUGES:
        told = "The pressure at the appliance is above that at the meter. Are the two swapped?"
        yield question("gas-drop", names, told, *shown)
    elif bands is not None and lost > bands.drop + 0.05:
        told = f"The drop from meter to appliance is {figure(lost, 3)} mbar; at most {bands.drop:g} is usual."
        why = "Was everything on full? If so, the pipe or a valve in it is too small or part shut. Ask the maker."
        slip = moved_point(lost, "mbar", lambda other: 0.2 <= other <= bands.drop) if not shown else None
        yield question("gas-drop", names, joined(told, slip, why), *shown)
    elif bands is not None:
        yield fine("gas-drop", names, f"The drop is {figure(lost, 3)} mbar, within {bands.drop:g} mbar.", *shown)


def _most(name: str, bands: Bands) -> float:
    return bands.standing_danger if name == "standing_mbar" else bands.working_danger


def _as_written(readings: Readings, lost: float, line: str) -> Iterator[Remark]:
    noted = sound(readings, "drop_mbar")
    if noted is not None and abs(noted[0] - lost) > _GAUGES:
        told = f"The drop is written as {figure(noted[0])} mbar, but the two pressures give {figure(lost, 3)}."
        slip = moved_point(noted[0], "mbar", lambda other: abs(other - lost) <= 0.1 * abs(lost))
        yield question("drop-written", ("drop_mbar", "at_meter_mbar", "at_appliance_mbar"), joined(told, slip), line)


CHECKS: Final = (unheld, standing, working, standing_above_working, pipe_drop)

"""Do cold fill, height and vessel fit together, and how near does the pressure come to the relief valve?"""

from collections.abc import Iterator
from math import inf
from typing import Final

from kb.engineering.calculation import Result
from kb.engineering.calculations.vessel import HOT_PRESSURE
from kb.engineering.record import BOUNDS, Readings, real, sound
from kb.engineering.remark import Remark, danger, fine, question
from kb.engineering.slips import guess, joined
from kb.engineering.span import CannotWork, figure
from kb.engineering.vessel import BELOW_RELIEF
from kb.engineering.water import COLD, head

RELIEF: Final = 3.0
"""The relief valve of a home's sealed system, in bar; a lower one counts, a higher one does not (common practice)."""

HOTTEST: Final = 80.0
"""The flow that a system must stand, in °C, whatever it is set to today (common practice)."""

ABOVE_HEAD: Final = 0.2
"""How far the vessel's charge lies above the static head, in bar, at least; 0.3 is usual (common practice)."""

_ROUGH: Final = 0.05
_SWING: Final = 0.7
_APART: Final = 0.4


def cold_fill(readings: Readings) -> Iterator[Remark]:
    """The cold fill is usual for a home, and leaves the relief valve its room."""
    value = real(readings.cold_bar)
    if value is None:
        return
    usual, relief = BOUNDS["cold_bar"].usual, _relief(readings)
    told = f"The cold fill is {figure(value)} bar; {usual} is usual."
    slip = guess(value, BOUNDS["cold_bar"])
    if value >= relief - BELOW_RELIEF:
        room = f"It leaves less than {BELOW_RELIEF} bar below the relief valve at {figure(relief)} bar."
        yield danger("cold-fill", ("cold_bar",), joined(told, room), _margin(relief, value), slip=slip)
    elif value > usual.high:
        why = "Is the house that high? A high fill leaves the vessel little room."
        yield question("cold-fill", ("cold_bar",), joined(told, slip, why), _margin(relief, value))
    elif 0 <= value < usual.low:
        why = "Many boilers stop below 0.5 bar." if value < 0.5 else "Is the home a bungalow?"
        yield question("cold-fill", ("cold_bar",), joined(told, slip, why))


def relief_valve(readings: Readings) -> Iterator[Remark]:
    """A home's relief valve lifts at 3 bar."""
    known = sound(readings, "relief_bar")
    if known is not None and known[0] != RELIEF:
        told = f"The relief valve is written as {figure(known[0])} bar; a home's lifts at {RELIEF:g} bar."
        asked = "Is that stamped on it? For the other checks the lower of the two is taken."
        yield question("relief-valve", ("relief_bar",), f"{told} {asked}")


def fill_and_height(readings: Readings) -> Iterator[Remark]:
    """The cold fill lifts the water to the highest radiator and a little further."""
    both = sound(readings, "cold_bar", "static_m")
    if both is None:
        return
    fill, metres = both
    names, bar = ("cold_bar", "static_m"), head(metres)
    working = f"{figure(metres)} m of water press with {figure(bar, 3)} bar; {figure(fill)} bar is in"
    if fill < bar + ABOVE_HEAD - _ROUGH:
        least = f"It should lie at least {ABOVE_HEAD} bar above the height's {figure(bar, 2)} bar, or air is drawn in."
        yield question("fill-height", names, f"The cold fill is low for the height. {least}", working)
    else:
        yield fine("fill-height", names, "The cold fill is enough for the height.", working)


def charge_and_height(readings: Readings) -> Iterator[Remark]:
    """The vessel's charge is the static head and 0.2 to 0.3 bar."""
    both = sound(readings, "charge_bar", "static_m")
    if both is None:
        return
    charge, metres = both
    names, bar = ("charge_bar", "static_m"), head(metres)
    wanted = f"{figure(bar + 0.2, 2)} to {figure(bar + 0.3, 2)} bar"
    working = f"{figure(metres)} m = {figure(bar, 3)} bar; + 0.2 to 0.3 = {wanted}"
    if charge < bar + ABOVE_HEAD - _ROUGH:
        told = f"The vessel's charge of {figure(charge)} bar is low for the height."
        asked = "Was it read with the water side at zero? The maker's figure wins."
        yield question("charge-height", names, joined(told, guess(charge, BOUNDS["charge_bar"]), asked), working)
    else:
        yield fine("charge-height", names, "The vessel's charge is enough for the height.", working)


def fill_and_charge(readings: Readings) -> Iterator[Remark]:
    """The cold fill lies above the charge, so that the vessel has water to give."""
    both = sound(readings, "cold_bar", "charge_bar")
    if both is None:
        return
    fill, charge = both
    names = ("cold_bar", "charge_bar")
    working = f"{figure(fill)} − {figure(charge)} = {figure(fill - charge, 3)} bar"
    if fill <= charge:
        told = "The cold fill is not above the vessel's charge, so the vessel holds no water to spare."
        asked = "Are the two swapped, or was the charge read with water in the system?"
        yield question("fill-charge", names, f"{told} {asked}", working)
    else:
        yield fine("fill-charge", names, "The cold fill lies above the vessel's charge.", working)


def expected_hot(readings: Readings) -> Iterator[Remark]:
    """What the gauge will show at 80 °C stays half a bar below the relief valve, which lifts in no case today."""
    names = ("cold_bar", "charge_bar", "vessel_l", "system_l")
    if sound(readings, *names) is None:
        return
    set_to = sound(readings, "flow_c")
    today = set_to[0] if set_to is not None and set_to[0] > COLD else HOTTEST
    margin, told, working = _foretold(readings, HOTTEST)
    if margin <= 0 and _foretold(readings, today)[0] <= 0 and not _held_hot(readings):
        margin, told, working = _foretold(readings, today)
        yield danger("hot-pressure", names, f"{told} Are the litres, the charge and the fill right?", *working)
    elif margin < BELOW_RELIEF:
        asked = f"That is not {BELOW_RELIEF} bar below it. Is the fill too high, or the vessel too small?"
        yield question("hot-pressure", names, f"{told} {asked}", *working)
    else:
        yield fine("hot-pressure", names, told, *working)


def _foretold(readings: Readings, celsius: float) -> tuple[float, str, tuple[str, ...]]:
    """The margin to the relief valve at a flow, the sentences that tell it, and the working."""
    lifts = f"The relief valve lifts at {figure(_relief(readings))} bar."
    try:
        result = _hot(readings, celsius)
    except CannotWork as full:
        return -inf, f"The vessel cannot take what the water grows by at {figure(celsius)} °C. {lifts}", (str(full),)
    told = f"At {figure(celsius)} °C the gauge will show about {result['hot']:.1f} bar. {lifts}"
    return result["margin"], told, result.working


def _held_hot(readings: Readings) -> bool:
    """Whether the gauge was read hot and stayed below the relief valve."""
    read = sound(readings, "hot_bar", "cold_bar")
    return read is not None and read[1] < read[0] < _relief(readings)


def read_hot(readings: Readings) -> Iterator[Remark]:
    """What the gauge showed when hot is usual, and below the relief valve."""
    hot = real(readings.hot_bar)
    if hot is None:
        return
    relief = _relief(readings)
    told = f"When hot the gauge shows {figure(hot)} bar."
    if hot >= relief:
        slip = guess(hot, BOUNDS["hot_bar"])
        at = f"The relief valve lifts at {figure(relief)} bar."
        yield danger("hot-reading", ("hot_bar",), joined(told, at), _margin(relief, hot), slip=slip)
    elif hot >= relief - BELOW_RELIEF:
        asked = f"That is within {BELOW_RELIEF} bar of the relief valve. Is the vessel charged and big enough?"
        yield question("hot-reading", ("hot_bar",), f"{told} {asked}", _margin(relief, hot))


def swing(readings: Readings) -> Iterator[Remark]:
    """The pressure rises when hot, by 0.7 bar at most, and about as far as the vessel says."""
    both = sound(readings, "cold_bar", "hot_bar")
    if both is None:
        return
    cold, hot = both
    names = ("cold_bar", "hot_bar")
    working = f"{figure(hot)} − {figure(cold)} = {figure(hot - cold, 3)} bar; 0.3 to {_SWING} bar is usual"
    if hot < cold:
        yield question("swing", names, "The pressure is lower hot than cold. Are the two swapped?", working)
    elif hot - cold > _SWING + 1e-9:
        asked = "The pressure rises a lot when hot. Has the vessel its charge, and is it big enough?"
        yield question("swing", names, asked, working)
    else:
        yield fine("swing", names, f"The pressure rises by {figure(hot - cold, 2)} bar when hot.", working)
    yield from _as_expected(readings, hot)


def _as_expected(readings: Readings, hot: float) -> Iterator[Remark]:
    """A reading far from what the vessel lets expect at the flow that was set."""
    names = ("cold_bar", "charge_bar", "vessel_l", "system_l", "flow_c")
    known = sound(readings, *names)
    if known is None or known[-1] <= COLD:
        return
    try:
        result = _hot(readings, min(known[-1], 100.0))
    except CannotWork:
        return
    if hot > result["hot"] + max(_APART, 0.4 * result["rise"]):
        told = f"When hot the gauge shows {figure(hot)} bar, but about {result['hot']:.1f} was to be expected."
        asked = "Is the vessel cut off or part flat, or is there more water in the system?"
        yield question("hot-expected", ("hot_bar", *names), f"{told} {asked}", *result.working)


def _hot(readings: Readings, celsius: float) -> Result:
    return HOT_PRESSURE.answer(
        fill=readings.cold_bar,
        charge=readings.charge_bar,
        vessel=readings.vessel_l,
        system=readings.system_l,
        hot=celsius,
        relief=_relief(readings),
    )


def _relief(readings: Readings) -> float:
    """The relief valve to reckon with: a home's boiler is made for 3 bar, whatever stands on the valve."""
    known = sound(readings, "relief_bar")
    return min(known[0], RELIEF) if known is not None else RELIEF


def _margin(relief: float, bar: float) -> str:
    return f"{figure(relief)} − {figure(bar)} = {figure(relief - bar, 3)} bar below the relief valve"


CHECKS: Final = (
    cold_fill,
    relief_valve,
    fill_and_height,
    charge_and_height,
    fill_and_charge,
    expected_hot,
    read_hot,
    swing,
)

"""Do hot water and heating carry the heat they should, and do the products condense at this return?"""

from collections.abc import Iterator
from typing import Final

from kb.engineering.calculations.combustion import CONDENSATE, DEW
from kb.engineering.calculations.heat import CIRCUIT_FLOW, CIRCUIT_POWER, TAP_POWER
from kb.engineering.checks.gas import trusted
from kb.engineering.combustion import FUELS, co2_max
from kb.engineering.heat import RISE
from kb.engineering.record import BOUNDS, Readings, bounds, sound
from kb.engineering.remark import Remark, fine, question
from kb.engineering.slips import guess, joined, moved_point
from kb.engineering.span import Span, figure

BUCKET: Final = 0.10
"""How far hot water by jug, stopwatch and thermometer may lie from the plate (judgement)."""

DROP: Final = Span(5, 25, "K")
"""The usual difference of flow and return; 10 to 20 K is wanted (common practice)."""

_TAP: Final = ("dhw_lpm", "cold_in_c", "hot_out_c")
_CIRCUIT: Final = ("flow_c", "return_c")
_SCALDS: Final = 60.0
_TOO_COOL: Final = 40.0


def tap_temperatures(readings: Readings) -> Iterator[Remark]:
    """Hot water is hotter than cold, and neither cool nor scalding."""
    known = sound(readings, "hot_out_c")
    both = sound(readings, "cold_in_c", "hot_out_c")
    if both is not None and both[1] <= both[0]:
        told = f"Hot water comes out at {figure(both[1])} °C and cold goes in at {figure(both[0])} °C."
        yield question("tap-swapped", ("cold_in_c", "hot_out_c"), f"{told} Are the two swapped?")
        return
    hot = known[0] if known is not None else _SCALDS
    if hot > _SCALDS:
        told = f"Hot water comes out at {figure(hot)} °C. Water of 60 °C burns skin in about five seconds."
        yield question("tap-temperature", ("hot_out_c",), f"{told} Turn it down before you leave, then write it again.")
    elif hot < _TOO_COOL:
        slip = guess(hot, BOUNDS["hot_out_c"])
        told = f"Hot water comes out at {figure(hot)} °C; 45 to 55 °C is usual."
        yield question("tap-temperature", ("hot_out_c",), joined(told, slip, "Was the tap open too far?"))


def tap_power(readings: Readings) -> Iterator[Remark]:
    """The heat in the hot water is that of the plate, and never more than the gas brings."""
    read = sound(readings, *_TAP)
    if read is None or read[2] - read[1] not in RISE:
        return
    result = TAP_POWER.answer(flow=read[0], cold=read[1], hot=read[2])
    told = f"The hot water carries {figure(result['kw'], 3)} kW."
    rate = trusted(readings)
    plate = sound(readings, "dhw_kw")
    if plate is not None:
        yield _against_plate(readings, result["kw"], plate[0], told, result.working)
    elif rate is None or result["kw"] <= rate["gross"] * (1 + BUCKET):
        yield fine("hot-water", _TAP, told, *result.working)
    if rate is not None and result["kw"] > rate["gross"] * (1 + BUCKET):
        line = f"{figure(result['kw'], 3)} kW out against {figure(rate['gross'], 3)} kW gross in by the meter"
        asked = "That is more than the gas brings. Were both taken at full rate?"
        names = (*_TAP, "gas_volume", "gas_s")
        yield question("hot-water-gas", names, f"{told} {asked}", *result.working, line)


def circuit(readings: Readings) -> Iterator[Remark]:
    """The flow is hotter than the return, by 10 to 20 K, and the pump can move what that takes."""
    both = sound(readings, *_CIRCUIT)
    if both is None:
        return
    flow, back = both
    working = f"{figure(flow)} − {figure(back)} °C = {figure(flow - back, 3)} K; 10 to 20 K is usual"
    if flow <= back:
        told = "The return is not cooler than the flow. Are the two swapped, or the pipes crossed?"
        yield question("flow-return", _CIRCUIT, told, working)
        return
    needed = _pump(readings, flow, back)
    if flow - back > DROP.high:
        told = "The return is much cooler than the flow: too little water moves. Look at pump, filter, valves and air."
        yield question("flow-return", _CIRCUIT, told, working, *needed)
    elif flow - back < DROP.low:
        told = "The return is hardly cooler than the flow. Does the bypass run, or is the pump set too high?"
        yield question("flow-return", _CIRCUIT, told, working, *needed)
    else:
        yield fine("flow-return", _CIRCUIT, f"The return is {figure(flow - back, 3)} K cooler.", working, *needed)


def flow_setting(readings: Readings) -> Iterator[Remark]:
    """A flow over 80 °C is the way to an overheat."""
    known = sound(readings, "flow_c")
    if known is not None and known[0] > BOUNDS["flow_c"].usual.high:
        told = (
            f"The heating flow is {figure(known[0])} °C; 55 to 65 °C is usual for a condensing boiler, 80 °C the most."
        )
        yield question("flow-setting", ("flow_c",), f"{told} Is it meant to be that hot?")


def circuit_power(readings: Readings) -> Iterator[Remark]:
    """The heat that goes round is not more than the plate gives."""
    read = sound(readings, "heating_lpm", *_CIRCUIT)
    if read is None or read[1] - read[2] not in RISE:
        return
    names = ("heating_lpm", *_CIRCUIT)
    result = CIRCUIT_POWER.answer(flow=read[0], flow_at=read[1], return_at=read[2])
    told = f"{figure(result['kw'], 3)} kW go round the radiators."
    plate = sound(readings, "output_kw")
    if plate is not None and result["kw"] > plate[0] * (1 + BUCKET):
        line = f"The plate gives {figure(plate[0])} kW"
        asked = "That is more than the plate gives. Read flow, temperatures and pump setting again."
        yield question("heating", (*names, "output_kw"), f"{told} {asked}", *result.working, line)
    else:
        yield fine("heating", names, told, *result.working)


def condenses(readings: Readings) -> Iterator[Remark]:
    """The return is cool enough for the products to condense, and so much runs out of the pipe."""
    read = sound(readings, "co2_high", "return_c")
    fuel = FUELS.get(readings.fuel or "")
    if read is None or fuel is None or not 2 <= read[0] <= co2_max(fuel) or _crossed(readings):
        return
    names = ("co2_high", "return_c")
    dew = DEW.answer(fuel=readings.fuel, co2=read[0], return_=read[1])
    if dew["below"] <= 0:
        told = f"The products begin to condense at {dew['dew']:.0f} °C, so it does not condense at this return."
        yield question("condenses", names, f"{told} Is a lower flow setting enough for the home?", *dew.working)
        return
    rate = trusted(readings)
    told = f"It condenses: the return is {dew['below']:.0f} K below the dew point."
    if rate is None:
        yield fine("condenses", names, told, *dew.working)
        return
    made = CONDENSATE.answer(fuel=readings.fuel, gross=rate["gross"], co2=read[0], leaving=read[1])
    litres = f"Up to {made['likely']:.1f} l/h of condensate run at this rate, {made['most']:.1f} l/h at the very most."
    yield fine("condenses", (*names, "gas_volume", "gas_s"), f"{told} {litres}", *dew.working, *made.working)


def _against_plate(readings: Readings, kw: float, plate: float, told: str, working: tuple[str, ...]) -> Remark:
    names = (*_TAP, "dhw_kw")
    line = f"{figure(kw, 3)} kW against {figure(plate)} kW on the plate: {round((kw / plate - 1) * 100):+d} %"
    if abs(kw / plate - 1) <= BUCKET:
        return fine("hot-water", names, f"{told} It agrees with the plate.", *working, line)
    flow = readings.dhw_lpm or 0.0

    def fits(other: float) -> bool:
        return other in bounds(readings, "dhw_lpm").usual and abs(kw * other / flow / plate - 1) <= BUCKET

    side = "above" if kw > plate else "below"
    why = "Measure the litres again." if kw > plate else "Was the tap fully open and the boiler at full rate?"
    slip = moved_point(flow, "l/min", fits)
    return question("hot-water", names, joined(told, f"That is {side} the plate's.", slip, why), *working, line)


def _crossed(readings: Readings) -> bool:
    """Whether flow and return are in each other's place, which is asked about elsewhere."""
    both = sound(readings, *_CIRCUIT)
    return both is not None and both[0] <= both[1]


def _pump(readings: Readings, flow: float, back: float) -> tuple[str, ...]:
    """The line that says how much water the plate's output takes at this difference."""
    plate = sound(readings, "output_kw")
    if plate is None or flow - back not in RISE:
        return ()
    litres = CIRCUIT_FLOW.answer(kw=plate[0], flow_at=flow, return_at=back)["flow"]
    return (f"{figure(plate[0])} kW at {figure(flow - back, 3)} K take {figure(litres, 3)} l/min from the pump",)


CHECKS: Final = (tap_temperatures, tap_power, circuit, flow_setting, circuit_power, condenses)

"""Does the gas rate agree with the plate?"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from kb.engineering.calculation import Result
from kb.engineering.calculations.gas import RATE
from kb.engineering.gas import CUBIC_FOOT, TOLERANCE
from kb.engineering.record import BOUNDS, Readings, burnt, sound
from kb.engineering.remark import Remark, danger, fine, question
from kb.engineering.slips import joined, moved_point
from kb.engineering.span import figure

OVER: Final = 0.10
"""How far above the plate a gas rate is dangerous unless a slip explains it (judgement)."""

_READ: Final = ("gas_volume", "gas_s")


@dataclass(frozen=True, slots=True)
class Compared:
    """A gas rate beside the plate's figure of the same kind: `share` is one over the other, less one."""

    basis: str
    found: float
    plate: float

    @property
    def share(self) -> float:
        """How far the found figure lies above the plate's, below nought when under."""
        return self.found / self.plate - 1

    @property
    def line(self) -> str:
        """The line of working that compares."""
        return (
            f"{figure(self.found, 3)} kW against {figure(self.plate)} kW on the plate, {self.basis}: "
            f"{self.share * 100:+.1f} %; ±{TOLERANCE * 100:.0f} % is usual, the maker's figure wins"
        )


def measured(readings: Readings) -> Result | None:
    """The gas rate that the record holds, or None without a metered fuel, a volume and a time."""
    read, gas = sound(readings, *_READ), burnt(readings)
    if read is None or gas is None or readings.meter not in ("metric", "imperial"):
        return None
    value = sound(readings, "cv")
    usable = value is not None and value[0] in gas.span
    return RATE.answer(
        fuel=readings.fuel,
        meter=readings.meter,
        volume=read[0],
        seconds=read[1],
        cv=value[0] if value is not None and usable else None,
    )


def trusted(readings: Readings) -> Result | None:
    """The gas rate when it is one of a home and not far from the plate, so that other checks may build on it."""
    rate = measured(readings)
    if rate is None or rate["gross"] not in BOUNDS["input_gross_kw"].possible:
        return None
    against = _against(readings, rate)
    return rate if against is None or abs(against[0].share) <= OVER else None


def gas_rate(readings: Readings) -> Iterator[Remark]:
    """The heat input by meter and stopwatch stands within 5 % of the plate."""
    yield from _calorific(readings)
    rate = measured(readings)
    if rate is None:
        return
    told = f"The gas rate is {figure(rate['gross'], 3)} kW gross, {figure(rate['net'], 3)} kW net."
    against = _against(readings, rate)
    if against is None:
        yield fine("gas-rate", _READ, told, *rate.working)
        return
    compared, plate = against
    working, figures = (*rate.working, compared.line), (*_READ, plate)
    if abs(compared.share) <= TOLERANCE:
        yield fine("gas-rate", figures, f"{told} It agrees with the plate.", *working)
        return
    slip = _slip(readings, compared)
    if slip:
        yield question("gas-rate", figures, joined(told, _far(compared), slip), *working)
    elif compared.share > OVER:
        asked = joined(_wrong_basis(readings, compared), _time(readings, compared))
        yield danger("gas-rate", figures, joined(told, _far(compared)), *working, slip=asked)
    else:
        yield question("gas-rate", figures, joined(told, _far(compared), _why(readings, compared)), *working)


def _calorific(readings: Readings) -> Iterator[Remark]:
    value, gas = sound(readings, "cv"), burnt(readings)
    if value is not None and gas is not None and value[0] not in gas.span:
        told = f"The calorific value is {figure(value[0])} MJ/m³; {gas.name} has {gas.span}."
        yield question("calorific-value", ("cv",), f"{told} Is it net, in other units, or of another gas?")


def _against(readings: Readings, rate: Result) -> tuple[Compared, str] | None:
    """The plate's figure to compare with, net before gross, and its name."""
    for basis in ("net", "gross"):
        name = f"input_{basis}_kw"
        plate = sound(readings, name)
        if plate is not None:
            return Compared(basis, rate[basis], plate[0]), name
    return None


def _far(compared: Compared) -> str:
    times = compared.found / compared.plate
    if not 0.5 < times < 2:
        return f"That is {figure(times, 2)} times the plate's {figure(compared.plate)} kW."
    side = "above" if compared.share > 0 else "below"
    return f"That is {figure(abs(compared.share) * 100, 2)} % {side} the plate's {figure(compared.plate)} kW."


def _slip(readings: Readings, compared: Compared) -> str | None:
    """The slip that would explain a figure far out: a decimal point, or the wrong kind of meter."""
    volume = readings.gas_volume or 0.0
    imperial = readings.meter == "imperial"
    each = 1 / CUBIC_FOOT if imperial else CUBIC_FOOT

    def fits(other: float) -> bool:
        return abs(compared.found * other / volume / compared.plate - 1) <= OVER

    usual = BOUNDS["input_net_kw"].usual
    if compared.plate not in usual:
        slip = moved_point(compared.plate, "kW", lambda kw: kw in usual and abs(compared.found / kw - 1) <= OVER)
        if slip:
            return f"The plate's input is written as {figure(compared.plate)} kW. {slip}"
    if fits(volume * each):
        return f"Does the meter count in {'m³' if imperial else 'ft³'}? Then the rate would fit."
    return moved_point(volume, "ft³" if imperial else "m³", fits)


def _time(readings: Readings, compared: Compared) -> str | None:
    """The question whether the time was twice or half as long, where that would explain it."""
    for times in (2, 0.5):
        if abs(compared.found / times / compared.plate - 1) <= TOLERANCE:
            return f"Was the time {figure((readings.gas_s or 0.0) * times)} s?"
    return None


def _wrong_basis(readings: Readings, compared: Compared) -> str | None:
    """The question whether gross and net are mixed up, where that would explain it."""
    gas = burnt(readings)
    ratio = gas.over_net if gas is not None else 1.0
    swapped = compared.found * (ratio if compared.basis == "net" else 1 / ratio)
    if abs(swapped / compared.plate - 1) > TOLERANCE:
        return None
    return f"Is the plate's {figure(compared.plate)} kW {'gross' if compared.basis == 'net' else 'net'}?"


def _why(readings: Readings, compared: Compared) -> str:
    """What to look at when the rate is a little above the plate, or below it."""
    if compared.share > 0:
        return joined(
            _wrong_basis(readings, compared),
            "Was anything else burning gas? Time it again.",
            "If it stays above the maker's tolerance and cannot be put right, turn the appliance off "
            "and follow the unsafe-situations procedure.",
        )
    return joined(
        _wrong_basis(readings, compared),
        _time(readings, compared),
        "Was the appliance at its full rate for the whole time? Time it again, and look at the working pressure.",
    )

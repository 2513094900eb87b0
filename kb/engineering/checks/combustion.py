"""Is the flame clean at both rates, does the CO₂ fit the fuel, and do products get to the air intake?"""

from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Final

from kb.engineering.calculations.combustion import RATIO
from kb.engineering.combustion import FUELS, co2_max
from kb.engineering.gas import GASES
from kb.engineering.record import Readings, real, sound
from kb.engineering.remark import Remark, danger, fine, question
from kb.engineering.slips import joined, moved_point
from kb.engineering.span import Span, figure

CO_LIMIT: Final = 350.0
RATIO_LIMIT: Final = 0.0040
"""The commissioning limits where the maker gives none (British trade bodies; technical bulletin 143)."""

ACTION: Final = 0.0080
"""The ratio that no maker's figure lifts (common practice; ask the edition of BS 7967 in force)."""

CO_ACTION: Final = 800.0
"""The CO that no maker's figure lifts: the action level's 0.0080 at 10 % CO₂."""

INTAKE_O2: Final = 20.6
INTAKE_CO2: Final = 0.2
"""What the air at an intake must hold, or products get into it (common practice)."""

USUAL: Final[Mapping[tuple[str, str], Span]] = MappingProxyType(
    {
        ("natural-gas", "high"): Span(8.5, 9.8, "%"),
        ("natural-gas", "low"): Span(7.5, 9.8, "%"),
        ("lpg", "high"): Span(9.5, 11, "%"),
        ("lpg", "low"): Span(8.5, 11, "%"),
    }
)
"""The CO₂ of condensing boilers by fuel and rate: at high rate common practice, the low rate a wider judgement."""

_REAL_GAS: Final = 0.2
"""How far British natural gas reads above methane at most, in % of CO₂ (common practice)."""

RATES: Final = ("high", "low")


def monoxide(readings: Readings) -> Iterator[Remark]:
    """CO stays under the maker's limit, or under 350 ppm where there is none."""
    given = sound(readings, "maker_co_ppm")
    limit, whose = (given[0], "the maker's limit") if given else (CO_LIMIT, "the limit where the maker gives none")
    if limit > CO_ACTION:
        limit, whose = CO_ACTION, "the action level, whatever the maker allows"
    for rate in RATES:
        name = f"co_{rate}_ppm"
        co = real(getattr(readings, name))
        if co is not None and co > limit:
            told = f"CO at {rate} rate is {figure(co)} ppm. {figure(limit)} ppm is {whose}."
            yield danger("carbon-monoxide", (name,), told)


def ratio(readings: Readings) -> Iterator[Remark]:
    """CO/CO₂ stays under the maker's limit, or under 0.0040 where there is none, and never above 0.0080."""
    for rate in RATES:
        names = (f"co_{rate}_ppm", f"co2_{rate}")
        swapped = _swapped(readings, rate)
        read = sound(readings, *names)
        if swapped:
            yield question("co-swapped", names, swapped)
        elif read is not None:
            result = RATIO.answer(co=read[0], co2=read[1])
            yield _judged(readings, rate, names, result["ratio"], *result.working)
            yield from _as_written(readings, rate, result["ratio"], *result.working)


def written_ratio(readings: Readings) -> Iterator[Remark]:
    """A ratio that was written, with or without its two gases, is held to the same limit."""
    limit, whose = _limit(readings)
    for rate in RATES:
        name = f"ratio_{rate}"
        value = real(getattr(readings, name))
        if value is not None and value > limit:
            told = f"CO/CO₂ at {rate} rate is written as {figure(value)}. {limit:.4f} is {whose}."
            slip = moved_point(value, "", lambda other: 0.0002 <= other <= 0.002)
            yield danger("ratio-written", (name,), told, slip=slip)


def dioxide(readings: Readings) -> Iterator[Remark]:
    """CO₂ lies where this fuel's condensing boilers have it, and never above what the fuel can make."""
    for rate in RATES:
        name = f"co2_{rate}"
        read, usual = sound(readings, name), USUAL.get((readings.fuel or "", rate))
        if read is None or usual is None or read[0] in usual or _swapped(readings, rate):
            continue
        told = f"CO₂ at {rate} rate is {figure(read[0])} %; {usual} is usual. The maker's figure wins."
        yield question("carbon-dioxide", (name,), joined(told, _why(readings.fuel or "", rate, read[0], usual)))


def intake(readings: Readings) -> Iterator[Remark]:
    """The air at the intake test point is fresh: at least 20.6 % O₂ and at most 0.2 % CO₂."""
    o2, co2 = real(readings.intake_o2), real(readings.intake_co2)
    back = "Products are getting into the air: the flue leaks or the products come back in."
    if o2 is not None and 0 <= o2 < INTAKE_O2:
        told = f"O₂ at the air intake is {figure(o2)} %; at least {INTAKE_O2} % must be there."
        yield danger("air-intake", ("intake_o2",), joined(told, back))
    if co2 is not None and co2 > INTAKE_CO2:
        told = f"CO₂ at the air intake is {figure(co2)} %; at most {INTAKE_CO2} % may be there."
        yield danger("air-intake", ("intake_co2",), joined(told, back))
    if o2 is not None and 21.0 < o2 <= 21.5:
        yield question("analyser", ("intake_o2",), f"O₂ reads {figure(o2)} %; fresh air has 20.9 %. Zero the analyser.")


def _limit(readings: Readings) -> tuple[float, str]:
    given = sound(readings, "maker_ratio")
    if given is None:
        return RATIO_LIMIT, "the limit where the maker gives none"
    if given[0] > ACTION:
        return ACTION, "the action level, whatever the maker allows"
    return given[0], "the maker's limit"


def _judged(readings: Readings, rate: str, names: tuple[str, ...], found: float, *working: str) -> Remark:
    limit, whose = _limit(readings)
    told = f"CO/CO₂ at {rate} rate is {found:.4f}. {limit:.4f} is {whose}."
    if found > limit:
        return danger("ratio", names, told, *working)
    return fine("ratio", names, told, *working)


def _as_written(readings: Readings, rate: str, found: float, *working: str) -> Iterator[Remark]:
    """The ratio as it was written is the ratio of the two gases, but for its last digit."""
    name = f"ratio_{rate}"
    noted = sound(readings, name)

    def fits(other: float) -> bool:
        return abs(other - found) <= max(0.00015, 0.1 * found)

    if noted is not None and not fits(noted[0]):
        told = f"CO/CO₂ at {rate} rate is written as {figure(noted[0])}, but the two gases give {found:.4f}."
        figures = (name, f"co_{rate}_ppm", f"co2_{rate}")
        yield question("ratio-mismatch", figures, joined(told, moved_point(noted[0], "", fits)), *working)


def _swapped(readings: Readings, rate: str) -> str | None:
    """The question whether CO and CO₂ stand in each other's place, where swapping makes both usual."""
    co, co2 = real(getattr(readings, f"co_{rate}_ppm")), real(getattr(readings, f"co2_{rate}"))
    if co is None or co2 is None or not (6 <= co <= 12 and co2 > 15):
        return None
    return f"CO at {rate} rate is {figure(co)} ppm and CO₂ {figure(co2)} %. Are the two swapped?"


def _why(fuel: str, rate: str, co2: float, usual: Span) -> str:
    highest = co2_max(FUELS[fuel])
    other = next(name for name in FUELS if name != fuel)
    if co2 > highest + _REAL_GAS:
        return (
            f"No flame of {GASES[fuel].name} makes more than about {highest:.1f} %. Is the analyser set to this fuel?"
        )
    slip = moved_point(co2, "%", lambda moved: moved in usual)
    if slip:
        return slip
    if co2 > usual.high and co2 in USUAL[(other, rate)]:
        return f"That is usual for {GASES[other].name}. Is the appliance set up for this gas?"
    return "Was it settled, with the case on? Never adjust the gas valve unless the maker says how."


CHECKS: Final = (monoxide, ratio, written_ratio, dioxide, intake)

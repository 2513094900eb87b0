"""What do dated gauge readings say: how far does the pressure swing, and how fast is water being lost?"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import pairwise
from typing import Final

from kb.engineering.span import CannotWork
from kb.engineering.vessel import held

TOP_UP: Final = 0.1
"""A cold reading this much above the one before, in bar, means that somebody let water in (judgement)."""

_DAY: Final = 86_400.0


@dataclass(frozen=True, slots=True, order=True)
class Reading:
    """What a gauge showed at a moment, in bar, and whether the system was hot."""

    at: datetime
    bar: float
    hot: bool = False


@dataclass(frozen=True, slots=True)
class Loss:
    """How fast a system lost pressure while nobody topped it up: bar a day, over how many days and readings."""

    bar_a_day: float
    days: float
    readings: int


def swing(readings: Iterable[Reading]) -> float | None:
    """How far the gauge rises from cold to hot, or None without both.

    Formula: highest hot reading − latest cold reading before it, the largest of all.
    Units: bar.
    Range: any readings, in any order.
    Errors: two gauge readings, each about 0.1 bar.
    Source: common practice: 0.3 to 0.7 bar is usual.
    """
    cold: float | None = None
    rises: list[float] = []
    for reading in sorted(readings):
        if not reading.hot:
            cold = reading.bar
        elif cold is not None:
            rises.append(reading.bar - cold)
    return max(rises, default=None)


def loss(readings: Iterable[Reading]) -> Loss | None:
    """How fast pressure is lost since water was last let in, or None without two cold readings at different times.

    Formula: the slope of the straight line through the cold readings (least squares), turned round.
    Units: bar a day; negative when the pressure rises.
    Range: cold readings only; a rise of 0.1 bar or more begins anew.
    Errors: with two readings a day apart about 0.15 bar a day, less with more.
    Source: least squares; common practice: more than 0.5 bar a day is a leak to find at once.
    """
    last = list(_since_top_up(sorted(reading for reading in readings if not reading.hot)))
    days = (last[-1].at - last[0].at).total_seconds() / _DAY if last else 0.0
    return Loss(-_slope(last), days, len(last)) if days > 0 else None


def litres_a_day(before: float, after: float, hours: float, vessel: float, charge: float) -> float:
    """The water lost in a day, from two cold readings of a system with a vessel.

    Formula: (V(held at the first) − V(held at the second)) × 24 ÷ hours.
    Units: pressures in bar by gauge, vessel in l, result in l a day.
    Range: both pressures at or above the charge, or what was lost below it is not counted.
    Errors: about a fifth, from the gauge and the charge.
    Source: Boyle's law.
    """
    if hours <= 0:
        raise CannotWork("some time between the readings", f"{hours:g} hours", "Give the hours from one to the other")
    return (held(vessel, charge, before) - held(vessel, charge, after)) * 24 / hours


def _since_top_up(cold: Sequence[Reading]) -> Iterator[Reading]:
    starts = [n for n, (one, two) in enumerate(pairwise(cold), 1) if two.bar - one.bar >= TOP_UP]
    yield from cold[starts[-1] if starts else 0 :]


def _slope(readings: Sequence[Reading]) -> float:
    days = [(reading.at - readings[0].at).total_seconds() / _DAY for reading in readings]
    middle = sum(days) / len(days)
    level = sum(reading.bar for reading in readings) / len(readings)
    spread = sum((day - middle) ** 2 for day in days)
    return sum((day - middle) * (r.bar - level) for day, r in zip(days, readings, strict=True)) / spread

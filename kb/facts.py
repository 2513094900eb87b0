"""What can be known about a home before anybody asks."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Final

FACTS: Final[Mapping[str, Mapping[str, str]]] = MappingProxyType(
    {
        "fuel": {"natural-gas": "mains gas", "lpg": "LPG from a tank or bottles", "oil": "oil"},
        "hot-water": {
            "combi": "straight from the boiler, no cylinder",
            "cylinder": "a cylinder fed from a tank",
            "unvented": "a mains-fed cylinder",
        },
        "system": {"sealed": "sealed, with a pressure gauge", "vented": "vented, with a small tank above"},
        "flue": {"room-sealed": "a pipe through the wall or roof", "open": "open to the room"},
        "meter": {"credit": "paid by bill", "prepay": "paid before use", "none": "no gas meter"},
        "filling-loop": {
            "hose": "a silver hose with two taps",
            "keyed": "a key or plug that pushes in",
            "built-in": "levers or knobs under the boiler",
            "none": "none to be seen",
        },
        "condensate": {
            "outside": "a plastic pipe that runs outside",
            "inside": "a plastic pipe that stays inside",
            "pump": "a small pump beside the boiler",
            "none": "no plastic pipe",
        },
        "controls": {"wired": "wired", "wireless": "wireless", "compensating": "compensating"},
        "tenure": {"own": "owned", "rent": "rented"},
    }
)
"""Every fact about a home, with its values and what each means in plain words."""

FACT_NAMES: Final[Mapping[str, str]] = MappingProxyType(
    {
        "fuel": "Fuel",
        "hot-water": "Hot water comes from",
        "system": "System",
        "flue": "Flue",
        "meter": "Meter",
        "filling-loop": "Filling loop",
        "condensate": "Condensate pipe",
        "controls": "Controls",
        "tenure": "Tenure",
    }
)
"""What each fact is called where it is listed."""

TRIED: Final[Mapping[str, str]] = MappingProxyType(
    {
        "reset": "resets-tried",
        "top-up": "top-ups-tried",
        "thaw": "thaws-tried",
        "breaker": "breakers-tried",
        "meter-restore": "meter-restores-tried",
        "water-release": "water-releases-tried",
        "relight": "relights-tried",
    }
)
"""Everything that may be tried only so often, and the fact that says how often it was tried before."""

LIMIT_NAMES: Final[Mapping[str, str]] = MappingProxyType(
    {
        "reset": "Resets",
        "top-up": "Top-ups",
        "thaw": "Thaws",
        "breaker": "Switching a breaker back on",
        "meter-restore": "Restoring a meter",
        "water-release": "Letting water out",
        "relight": "Relighting",
    }
)
"""What each thing that has a limit is called where limits are listed."""

COUNTS: Final = ("0", "1", "2", "3")
"""The values of a count; the last one also means "more", and "I do not know"."""

READINGS: Final[Mapping[str, str]] = MappingProxyType({"pressure": "bar"})
"""Every gauge a step may read, with its unit."""

PRESSURE_SPAN: Final = (0.0, 4.0)
"""What a domestic dial gauge shows, in bar (common practice)."""


def values_of(fact: str) -> tuple[str, ...] | None:
    """The values a fact can take, or None if there is no such fact."""
    if fact in FACTS:
        return tuple(FACTS[fact])
    return COUNTS if fact in TRIED.values() else None


@dataclass(frozen=True, slots=True)
class GaugeMarks:
    """A home's own marks on its pressure gauge, in bar, read cold.

    Raises ValueError unless 0.6 <= low < aim < high <= 2.4: under 0.5 bar many boilers stop and from 2.5 bar
    the relief valve is near (common practice), so no home's marks may reach either.
    """

    low: float = 0.8
    aim: float = 1.2
    high: float = 1.8

    def __post_init__(self) -> None:
        if not 0.6 <= self.low < self.aim < self.high <= 2.4:
            raise ValueError(
                "gauge marks must rise from low to aim to high and stay between 0.6 and 2.4 bar, "
                f"but low is {self.low}, aim is {self.aim} and high is {self.high}"
            )

    def bar(self, mark: str | float) -> float:
        """The bar of a mark's name; a figure is itself."""
        return mark if isinstance(mark, float) else float(getattr(self, mark))


EXTREME_MARKS: Final = (GaugeMarks(), GaugeMarks(0.6, 0.7, 0.8), GaugeMarks(2.2, 2.3, 2.4), GaugeMarks(0.6, 1.2, 2.4))
"""The usual marks, and the corners of what a home's marks may be: what holds for these holds for all."""


@dataclass(frozen=True, slots=True)
class Known:
    """What is known about a home when a walk begins.

    `limits` holds the appliance's own limits where its instructions allow less than the article.
    """

    facts: Mapping[str, str] = field(default_factory=dict)
    marks: GaugeMarks = GaugeMarks()
    limits: Mapping[str, int] = field(default_factory=dict)


NOTHING_KNOWN: Final = Known()

"""What was measured on site: which figure, in which unit, where?"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from kb.handover.typed import Problem
from kb.visit.job import READING

UNITS: Final = (
    "bar",
    "mbar",
    "kW",
    "m³",
    "ppm",
    "%",
    "ratio",
    "°C",
    "K",
    "l/min",
    "s",
    "V",
    "Ω",
    "MΩ",
    "kΩ",
    "A",
    "µA",
)
"""What an engineer measures in; a ratio of CO to CO₂ has none."""

PLACES: Final = (
    "gauge, cold",
    "gauge, hot",
    "gas, working, at the meter",
    "gas, working, at the appliance",
    "gas rate",
    "CO at highest rate",
    "CO₂ at highest rate",
    "CO/CO₂ at highest rate",
    "CO at lowest rate",
    "CO₂ at lowest rate",
    "O₂ at the air intake",
    "flow",
    "return",
    "flame signal",
)
"""Where it is usually measured; any other words do as well."""

LONGEST_PLACE: Final = 120
_FIGURE: Final = re.compile(r"[+\-−]?(?:\d{1,7}(?:[.,]\d{1,5})?|[.,]\d{1,5})", re.ASCII)
_THOUSANDS: Final = re.compile(r"[1-9]\d{0,2},\d{3}")
_WRITTEN: Final = re.compile(r"(?P<figure>\S+) (?P<unit>\S+) (?P<where>.+)")


@dataclass(frozen=True, slots=True)
class Reading:
    """One figure as it was read, its unit, and where; the field it stands in."""

    figure: float
    unit: str
    where: str
    field: str = ""

    def __str__(self) -> str:
        return f"{self.figure:g} {self.unit} {self.where}"


def read(figure: str, unit: str, where: str, field: str = "") -> Reading | Problem:
    """A reading from what was typed, or what is wrong with it."""
    typed, place = figure.strip(), " ".join(where.split())
    if _FIGURE.fullmatch(typed) is None or _THOUSANDS.fullmatch(typed):
        return Problem("a figure with a point before the decimals", f"“{typed[:20]}”", "Write it like 1.2.")
    if unit not in UNITS:
        return Problem(f"one of {', '.join(UNITS)}", f"“{unit[:20]}”", "Choose the unit.")
    if not place or len(place) > LONGEST_PLACE:
        return Problem("where it was read, in a few words", f"“{place[:20]}”", "Say where, such as “gauge, cold”.")
    return Reading(float(typed.replace(",", ".").replace("−", "-")), unit, place, field)


def heard(field: str, text: str) -> Reading | Problem:
    """A reading from the text of its entry, `1.2 bar gauge, cold`."""
    found = _WRITTEN.fullmatch(text)
    parts = (found["figure"], found["unit"], found["where"]) if found else (text, "", "")
    return read(*parts, field)


def readings(texts: Mapping[str, str]) -> Iterator[Reading]:
    """Every reading that stands in a job's fields and can be read."""
    for field, text in texts.items():
        if field.startswith(READING) and text:
            found = heard(field, text)
            if isinstance(found, Reading):
                yield found

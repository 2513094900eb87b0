"""What does that which somebody typed into a field mean, and if nothing, what is said about it?"""

import re
from dataclasses import dataclass
from datetime import date
from typing import Final, TypeAlias

from kb.handover.field import Field, Kind

Meaning: TypeAlias = float | str | date | tuple[str, ...]

_FIGURE: Final = re.compile(r"([+\-−]?)\s*(\d+(?:[.,]\d+)?|[.,]\d+)\s*(\D*)", re.ASCII)
_THOUSANDS: Final = re.compile(r"[1-9]\d{0,2},\d{3}")
_PLAIN: Final = str.maketrans({"³": "3", "²": "2", "₂": "2", "°": "", " ": "", "/": "", ".": ""})
_ALSO: Final = {
    "lmin": ("lpm", "litres", "litresaminute", "lminute", "l"),
    "l": ("litre", "litres", "ltr", "ltrs"),
    "s": ("sec", "secs", "second", "seconds"),
    "mbar": ("mb", "millibar", "millibars"),
    "bar": ("bars",),
    "m": ("metre", "metres"),
    "a": ("amp", "amps"),
    "%": ("percent",),
    "m3": ("cubicmetres", "cubicmetre"),
    "ft3": ("cubicfeet", "cubicfoot"),
    "": ("bends", "bend"),
}


@dataclass(frozen=True, slots=True)
class Problem:
    """Why something typed cannot be used: what was expected, what was found, what to do next."""

    expected: str
    found: str
    remedy: str

    def __str__(self) -> str:
        return f"Expected {self.expected}, found {self.found}. {self.remedy}"


@dataclass(frozen=True, slots=True)
class Value:
    """What stands in a field: the text as it was typed, what it means, and what is wrong with it.

    A figure beyond what can be is wrong and still means something: a danger is told from it as it was written.
    """

    text: str
    meaning: Meaning | None = None
    problem: Problem | None = None


def read(field: Field, text: str) -> Value | None:
    """What a text means in a field; None where nothing was typed."""
    tidy = " ".join(text.split()) if field.kind is not Kind.WORDS else text.strip()
    if not tidy:
        return None
    match field.kind:
        case Kind.FIGURE:
            return _figure(field, text, tidy)
        case Kind.CHOICE | Kind.YES_NO:
            return _choice(field, text, tidy)
        case Kind.TICKS:
            return _ticks(field, text, tidy)
        case Kind.DATE:
            return _date(text, tidy)
    return _words(field, text, tidy)


def _figure(field: Field, text: str, tidy: str) -> Value:
    shown, example = f"“{tidy[:40]}”", "Write it like 1.2"
    unit = f" in {field.unit}" if field.unit else ""
    found = _FIGURE.fullmatch(tidy)
    if found is None:
        return Value(text, problem=Problem(f"a figure{unit}", shown, f"{example}."))
    if _THOUSANDS.fullmatch(found[2]):
        return Value(text, problem=Problem("a point before the decimals", shown, "Write 1234 or 1.234."))
    if not _fits(found[3], field.unit):
        return Value(text, problem=Problem(f"a figure{unit}", shown, f"{example}, in that unit."))
    number = float(found[2].replace(",", ".")) * (-1 if found[1] in ("-", "−") else 1)
    if field.span and not field.span[0] <= number <= field.span[1]:
        low, high = field.span
        between = f"{low:g} to {high:g} {field.unit}".strip()
        return Value(text, number, Problem(between, shown, "Read it again and look at the point and the unit."))
    return Value(text, number)


def _fits(typed: str, unit: str) -> bool:
    plain, own = (each.translate(_PLAIN).casefold() for each in (typed, unit))
    return plain in ("", own, *_ALSO.get(own, ()))


def _choice(field: Field, text: str, tidy: str) -> Value:
    if tidy in field.options:
        return Value(text, tidy)
    listed = ", ".join(field.options.values())
    return Value(text, problem=Problem(f"one of: {listed}", f"“{tidy[:40]}”", "Choose one of them."))


def _ticks(field: Field, text: str, tidy: str) -> Value:
    ticked = tidy.split(" ")
    unknown = [each for each in ticked if each not in field.options]
    if unknown:
        problem = Problem("ticks from the list", f"“{', '.join(unknown)[:40]}”", "Tick again what is right.")
        return Value(text, problem=problem)
    return Value(text, tuple(each for each in field.options if each in ticked))


def _date(text: str, tidy: str) -> Value:
    try:
        return Value(text, date.fromisoformat(tidy))
    except ValueError:
        return Value(text, problem=Problem("a day", f"“{tidy[:40]}”", "Choose it, or write it like 2026-11-25."))


def _words(field: Field, text: str, tidy: str) -> Value:
    if len(tidy) > field.most:
        problem = Problem(f"at most {field.most} letters", f"{len(tidy)}", "Shorten it.")
        return Value(text, tidy, problem)
    if field.target[0] in ("place", "home", "alarm") and not tidy.isprintable():
        return Value(text, problem=Problem("plain words in one line", "a sign nobody sees", "Type it again."))
    return Value(text, tidy)

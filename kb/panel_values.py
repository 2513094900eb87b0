"""What may a display show that is no fault at all?"""

import re
from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Final

from kb.facts import PRESSURE_SPAN
from kb.spoken import spelt_out

_CLOCK: Final = re.compile(r"(?:[01]?[0-9]|2[0-3]):[0-5][0-9]|(?:[01][0-9]|2[0-3])[. ]?[0-5][0-9]")
_BAR: Final = re.compile(r"([0-9](?:[.,][0-9]{1,2})?) ?(?:bars?|b)", re.IGNORECASE)
_PRESSURE: Final = re.compile(r"[0-9][.,][0-9]{1,2}")
_WITHOUT_POINT: Final = re.compile(r"[0-3][0-9]")
_DEGREES: Final = re.compile(r"([0-9]{2}) ?(?:°|º|deg(?:rees)?|c|celsius)+ ?(?:c|celsius)?", re.IGNORECASE)
_TEMPERATURE: Final = re.compile(r"[0-9]{2}")
_UNIT: Final = re.compile(r"^(.+?)\s+(bars?|degrees|deg|celsius|degrees celsius)$", re.IGNORECASE)
_WATER_DEGREES: Final = range(20, 86)
_LONGEST: Final = 60

WORDS: Final[Mapping[str, re.Pattern[str]]] = MappingProxyType(
    {
        "a sign that it stands by, and nothing asks for heat": re.compile(r"stand(?:ing)?[ -]?by|stby|ready|idle|ok"),
        "a sign that it keeps itself from freezing": re.compile(
            r"(?:anti[ -]?)?frost(?: (?:protection|guard|mode|on))?|snow ?flake|ice crystal"
        ),
        "a sign that a service is due": re.compile(r"service(?: (?:due|now|soon|required|needed))?|spanner|wrench"),
        "a sign that it heats the hot water first": re.compile(r"d?hw|hot water(?: (?:on|first|priority|mode))?|tap"),
        "a sign that it heats the home": re.compile(r"ch|(?:central )?heating(?: on)?|radiator|flame|burner on"),
        "a setting": re.compile(
            r"summer|winter|eco(?:nomy)?|comfort|pre-?heat|holiday|away|auto|timer|manual|boost|night|day|max|min"
        ),
        "a sign that its buttons are locked": re.compile(r"(?:child|key|button)s? ?lock(?:ed)?|padlock"),
        "a test run": re.compile(r"test(?: mode)?|chimney(?: sweep)?|sweep"),
    }
)
"""What a panel may say in words or by a picture, each with what people call it (common practice)."""


def no_faults(typed: str) -> tuple[str, ...]:
    """Everything a display may mean by this that is no code: a pressure, a temperature, the time, a mode.

    The spans are what a domestic boiler shows in ordinary use (common practice).
    """
    written = typed.strip()
    if not written or len(written) > _LONGEST:
        return ()
    found = list(_values(written)) or list(_values(_in_figures(written)))
    return tuple(dict.fromkeys(found))


def _values(written: str) -> Iterator[str]:
    if _CLOCK.fullmatch(written):
        yield "the time of day"
    if (bar := _bar(written)) is not None:
        yield f"the water pressure, {bar} bar"
    if _WITHOUT_POINT.fullmatch(written) and int(written) > 0:
        yield f"the water pressure, {written[0]}.{written[1]} bar, with a point that is hard to see"
    if (degrees := _degrees(written)) is not None:
        yield f"the water temperature, {degrees} degrees"
    yield from (words for words, names in WORDS.items() if names.fullmatch(written.casefold()))


def _bar(written: str) -> str | None:
    with_unit = _BAR.fullmatch(written)
    figure = (with_unit[1] if with_unit else written).replace(",", ".")
    if not (with_unit or _PRESSURE.fullmatch(written)):
        return None
    lowest, highest = PRESSURE_SPAN
    return figure if lowest <= float(figure) <= highest else None


def _degrees(written: str) -> str | None:
    with_unit = _DEGREES.fullmatch(written)
    figure = with_unit[1] if with_unit else written
    if not (with_unit or _TEMPERATURE.fullmatch(written)):
        return None
    return figure if int(figure) in _WATER_DEGREES else None


def _in_figures(written: str) -> str:
    """The same with its words for figures as figures: "one point two bar" is 1.2 bar."""
    unit = _UNIT.match(written)
    spelt = spelt_out(unit[1] if unit else written) or ""
    return f"{spelt} {unit[2]}" if unit and spelt else spelt

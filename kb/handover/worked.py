"""What need nobody type, because it follows from what was typed?

A value that follows is shown as such, may be typed over, and is signed like any other.
Nothing that somebody has to look at or to measure is ever filled in so.
"""

from collections.abc import Callable, Iterator, Mapping
from datetime import date
from itertools import chain
from typing import Final

from kb.appliance import Make
from kb.handover.typed import Value

_LOWEST: Final = 0.6
_HIGHEST: Final = 2.4
_BELOW: Final = 0.4
_ABOVE: Final = 0.6
"""How far the marks lie below and above the aim, in bar (common practice), inside what marks may be."""


FROM: Final[Mapping[str, tuple[str, ...]]] = {
    "drop-mbar": ("at-meter-mbar", "at-appliance-mbar"),
    "aim": ("cold-bar",),
    "low": ("aim",),
    "high": ("aim",),
}
"""What need not be asked for while that from which it follows is still open, by field."""


def worked_out(typed: Mapping[str, Value], makes: Mapping[str, Make], today: date) -> Mapping[str, str]:
    """The texts that follow from what was typed, by field."""
    rules: tuple[Callable[[Mapping[str, Value]], Iterator[tuple[str, str]]], ...] = (
        lambda values: _water(values, makes),
        _marks,
        _drop,
        lambda values: _days(values, today),
    )
    return dict(chain.from_iterable(rule(typed) for rule in rules))


def _number(values: Mapping[str, Value], id: str) -> float | None:
    value = values.get(id)
    usable = value is not None and value.problem is None
    return value.meaning if value and usable and isinstance(value.meaning, float) else None


def _water(values: Mapping[str, Value], makes: Mapping[str, Make]) -> Iterator[tuple[str, str]]:
    """A range of combis makes hot water itself, on a sealed system (common practice)."""
    family = values.get("range")
    if family is not None and makes.get(str(family.meaning)) is Make.COMBI:
        yield "hot-water", "combi"
        yield "system", "sealed"


def _marks(values: Mapping[str, Value]) -> Iterator[tuple[str, str]]:
    """The aim is the cold fill that was found right, as far as a mark may be there."""
    aim = _number(values, "aim")
    if aim is None:
        cold = _number(values, "cold-bar")
        if cold is None:
            return
        aim = min(max(round(cold, 1), _LOWEST + 0.1), _HIGHEST - 0.1)
        yield "aim", f"{aim:g}"
    yield "low", f"{max(_LOWEST, round(aim - _BELOW, 2)):g}"
    yield "high", f"{min(_HIGHEST, round(aim + _ABOVE, 2)):g}"


def _drop(values: Mapping[str, Value]) -> Iterator[tuple[str, str]]:
    meter, appliance = _number(values, "at-meter-mbar"), _number(values, "at-appliance-mbar")
    if meter is not None and appliance is not None:
        yield "drop-mbar", f"{round(meter - appliance, 2):g}"


def _days(values: Mapping[str, Value], today: date) -> Iterator[tuple[str, str]]:
    """Commissioned today, and serviced on the first anniversary that is still to come."""
    found = values.get("fitted")
    fitted = found.meaning if found and isinstance(found.meaning, date) else today
    if found is None:
        yield "fitted", fitted.isoformat()
    yield "next-service", _anniversary(fitted, max(fitted, today)).isoformat()


def _anniversary(first: date, after: date) -> date:
    leap = (first.month, first.day) == (2, 29)
    this_year = first.replace(year=after.year, day=28 if leap else first.day)
    return this_year if this_year > after else this_year.replace(year=after.year + 1)

"""Do a handover record's figures fit together? Hands them to the engineering and takes back what it says."""

from collections.abc import Iterable, Iterator
from dataclasses import fields
from datetime import date
from typing import Any, Final

from kb.days import full_day
from kb.engineering.plausible import remarks
from kb.engineering.record import Readings
from kb.handover.said import Check, Level, Said
from kb.handover.state import State

STORED: Final = (60.0, 65.0)
"""How warm a cylinder is kept, in °C: against legionella, and no hotter than need be (HSE guidance on legionella)."""


_VOLUME: Final = {"metric": "gas-m3", "imperial": "gas-ft3"}


def readings_of(state: State) -> Readings:
    """The figures of a record as the engineering knows them."""
    names = {each.name for each in fields(Readings)}
    meter = state.chosen.get("meter-kind", "metric")
    figures = {_name(id, meter): value for id, value in state.figures().items()}
    known: dict[str, Any] = {name: value for name, value in figures.items() if name in names}
    return Readings(fuel=state.chosen.get("fuel"), meter=meter, **known)


def figures_fit(state: State) -> Iterable[Said]:
    """Everything the engineering says of the record's figures."""
    readings = readings_of(state)
    for remark in remarks(readings):
        ids = tuple(_id(name, readings.meter) for name in remark.figures)
        yield Said(remark.check, ids, Level(remark.level.value), remark.text, remark.working)


def _name(id: str, meter: str) -> str:
    return "gas_volume" if id == _VOLUME.get(meter) else id.replace("-", "_")


def _id(name: str, meter: str) -> str:
    return _VOLUME[meter] if name == "gas_volume" else name.replace("_", "-")


def cylinder(state: State) -> Iterator[Said]:
    """A cylinder is stored hot enough that nothing grows in it."""
    stored = state.figures().get("store-c")
    if stored is not None and not STORED[0] <= stored <= STORED[1]:
        told = f"The cylinder is set to {stored:g} °C; {STORED[0]:g} to {STORED[1]:g} °C is usual."
        yield Said(
            "stored", ("store-c",), Level.QUESTION, f"{told} What keeps legionella down, and who may be scalded?"
        )


def alarms(state: State) -> Iterator[Said]:
    """An alarm hangs no longer than the day printed on it."""
    for kind, words in (("co", "carbon monoxide alarm"), ("smoke", "smoke alarm")):
        ends = state.meaning(f"{kind}-alarm-ends")
        if isinstance(ends, date) and ends <= state.today and _is_asked(state, f"{kind}-alarm-ends"):
            told = f"The {words} was to be replaced by {full_day(ends)}."
            yield Said("alarm", (f"{kind}-alarm-ends",), Level.QUESTION, f"{told} Who puts in a new one, and when?")


def _is_asked(state: State, id: str) -> bool:
    return state.form.by_id[id].is_asked(state.chosen)


CHECKS: Final[tuple[Check, ...]] = (figures_fit, cylinder, alarms)
"""Every check of a record."""

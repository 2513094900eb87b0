"""Which sections and fields has a handover record, for the ranges and settings that a firm has?"""

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Any, Final

from kb.appliance import Make
from kb.facts import FACTS
from kb.handover.field import Field, Kind, Section

FOLDER: Final = Path(__file__).parent / "form"
ORDER: Final = (
    "appliance",
    "water",
    "flue",
    "gas",
    "combustion",
    "heating",
    "hot-water",
    "condensate",
    "electrics",
    "controls",
    "customer",
    "left",
    "outcome",
)
"""The sections in the order of the work, each with a file of its own."""

OTHER_RANGE: Final = "other"
"""The choice where the firm has written no file for the appliance's range; such a home has no card yet."""

YES_NO: Final[Mapping[str, str]] = MappingProxyType({"yes": "Yes", "no": "No"})


@dataclass(frozen=True, slots=True)
class Form:
    """All that is asked; `makes` says how each range makes hot water."""

    sections: tuple[Section, ...]
    makes: Mapping[str, Make]
    by_id: Mapping[str, Field] = field(repr=False)

    def setting(self, sets: str) -> Iterator[Field]:
        """The fields that set something of the home, such as `place:switch`."""
        return (each for each in self.by_id.values() if each.sets == sets)


def form_for(ranges: Mapping[str, str], settings: Mapping[str, str], makes: Mapping[str, Make] | None = None) -> Form:
    """The form with a firm's ranges, by id and name, and the settings articles, by id and title."""
    lists = {"ranges": {**ranges, OTHER_RANGE: "another range"}, "settings": dict(settings)}
    sections = tuple(_section(id, written, lists) for id, written in _written().items())
    return Form(sections, makes or {}, {each.id: each for section in sections for each in section.fields})


@cache
def _written() -> Mapping[str, Mapping[str, Any]]:
    return {id: tomllib.loads((FOLDER / f"{id}.toml").read_text(encoding="utf-8")) for id in ORDER}


def _section(id: str, written: Mapping[str, Any], lists: Mapping[str, Mapping[str, str]]) -> Section:
    when = written.get("when", {})
    fields = (_field(id, {**each, "when": {**when, **each.get("when", {})}}, lists) for each in written["field"])
    return Section(id=id, title=written["title"], fields=tuple(fields))


def _field(section: str, written: Mapping[str, Any], lists: Mapping[str, Mapping[str, str]]) -> Field:
    return Field.model_validate({**written, "section": section, "options": _options(written, lists)})


def _options(written: Mapping[str, Any], lists: Mapping[str, Mapping[str, str]]) -> Mapping[str, str]:
    """A field's own options, the values of the fact it sets, a list from outside, or yes and no."""
    own = written.get("options", {})
    kind, _, name = written.get("sets", "").partition(":")
    if isinstance(own, str):
        return lists[own]
    if kind == "fact":
        return FACTS[name]
    return YES_NO if written["kind"] == Kind.YES_NO else own

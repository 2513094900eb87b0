"""What do the figures in a clause say: a gauge that is low, a room that is warm, a price?"""

import re
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from kb.search.text import Clause
from kb.search.vocabulary import ENGLISH

MARK: Final = "="
"""Stands before the name of a concept where a figure stood."""

_BARE_PRESSURE: Final = 4.0
_NO_CELSIUS_INDOORS: Final = 45
_WRITTEN_AS_BAR: Final = re.compile(r"[0-3]\.\d")
_COOLEST_ROOM: Final = 8
_WARMEST_ROOM: Final = 40
_BARE_HEAT: Final = 80
_HOTTEST: Final = 130


@dataclass(frozen=True, slots=True)
class Figures:
    """Reads figures with the units and bands of one language."""

    units: Mapping[str, str]
    numbers: Mapping[str, float]
    bands: Mapping[str, Sequence[tuple[float, str]]]
    gauges: frozenset[str]
    before: frozenset[str]
    after: frozenset[str]
    psi: frozenset[str]
    rooms: frozenset[str]
    differences: frozenset[str]
    thermometers: frozenset[str]
    not_bar: frozenset[str]

    def read(self, clauses: Sequence[Clause]) -> list[Clause]:
        """The clauses with every figure that says something replaced by the name of its concept."""
        all_words = frozenset(word for clause in clauses for word in clause)
        return [self._read(clause, all_words) for clause in clauses]

    def _read(self, clause: Clause, around: frozenset[str]) -> Clause:
        if not any(_is_digits(word) or word in self.numbers for word in clause):
            return clause
        read: list[str] = []
        at = 0
        while at < len(clause):
            concept, width = self._at(clause, at, around)
            read.append(MARK + concept if concept else clause[at])
            at += width
        return tuple(read)

    def _at(self, clause: Clause, at: int, around: frozenset[str]) -> tuple[str | None, int]:
        figure = self._figure(clause[at])
        if figure is None or (at > 0 and clause[at - 1] in self.differences):
            return None, 1
        cold = at > 0 and clause[at - 1] == "minus"
        following = clause[at + 1 : at + 4]
        # "half a bar", "5 degrees c"
        skip = 1 if following[:1] == ("a",) else 0
        unit = self.units.get(following[skip]) if len(following) > skip else None
        match unit:
            case "bar":
                return self._band("bar", figure), 2 + skip
            case "psi":
                return self._band("psi", figure), 2 + skip
            case "money":
                return "bill", 2 + skip
            case "degrees" | "fahrenheit":
                return self._warmth(-figure if cold else figure, clause, following), 2 + skip
        if cold:
            return "frost-figure", 1
        return self._bare(figure, clause, at, around), 1

    def _bare(self, figure: float, clause: Clause, at: int, around: frozenset[str]) -> str | None:
        """What a figure without a unit says, where the words around it name a gauge or a thermometer."""
        beside = {*clause[max(0, at - 1) : at], *clause[at + 1 : at + 2]}
        if _WRITTEN_AS_BAR.fullmatch(clause[at]) and not (self.not_bar & beside or any(map(_is_digits, beside))):
            return self._band("bar", figure)
        if (
            _COOLEST_ROOM <= figure <= _WARMEST_ROOM
            and clause[at + 1 : at + 2] == ("in",)
            and self._in_a_room(clause, at)
        ):
            return self._band("celsius", figure)
        before = at > 0 and clause[at - 1] in self.before
        after = at + 1 == len(clause) or clause[at + 1] in self.after
        if not (before and after):
            return None
        if self.psi & around:
            return self._band("psi", figure)
        if figure <= _BARE_PRESSURE and self.gauges & around:
            return self._band("bar", figure)
        is_heat = _BARE_HEAT <= figure <= _HOTTEST and self.thermometers & around
        return self._band("celsius", figure) if is_heat else None

    def _in_a_room(self, clause: Clause, at: int) -> bool:
        return bool(self.rooms & set(clause[at + 2 : at + 5]))

    def _figure(self, word: str) -> float | None:
        if _is_digits(word):
            try:
                return float(word)
            except ValueError:
                return None
        return self.numbers.get(word)

    def _warmth(self, figure: float, clause: Clause, following: Clause) -> str:
        indoors = figure > _NO_CELSIUS_INDOORS and bool(self.rooms & set(clause))
        if indoors or any(self.units.get(word) == "fahrenheit" for word in following[:2]):
            figure = (figure - 32) / 1.8
        return self._band("celsius", figure)

    def _band(self, name: str, figure: float) -> str:
        bands = self.bands[name]
        return next((concept for floor, concept in reversed(bands) if figure >= floor), bands[0][1])


def _is_digits(word: str) -> bool:
    return word[0].isdigit() or word[0] == "."


def load_figures(folder: Path = ENGLISH) -> Figures:
    """Read the units and bands of a language."""
    told: dict[str, Any] = tomllib.loads((folder / "figures.toml").read_text(encoding="utf-8"))
    units = {word: unit for unit in ("bar", "psi", "degrees", "fahrenheit", "money") for word in told[unit]}
    return Figures(
        units=units,
        numbers=told["numbers"],
        bands={name: tuple((floor, concept) for floor, concept in bands) for name, bands in told["bands"].items()},
        gauges=frozenset(told["gauges"]),
        before=frozenset(told["before"]),
        after=frozenset(told["after"]),
        psi=frozenset(told["psi"]),
        rooms=frozenset(told["rooms"]),
        differences=frozenset(told["differences"]),
        thermometers=frozenset(told["thermometers"]),
        not_bar=frozenset(told["not-bar"]),
    )

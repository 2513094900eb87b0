"""What is known about one home: its appliance, its marks and where things are, and nothing about people."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from types import MappingProxyType
from typing import Final

from kb.appliance import Range
from kb.facts import NOTHING_KNOWN, Known, values_of

PLACES: Final[Mapping[str, str]] = MappingProxyType(
    {
        "gas-valve": "the valve that turns the gas off",
        "stop-tap": "the tap that turns the water off",
        "switch": "the switch that turns the boiler off",
        "filling-loop": "where water is let into the heating",
        "condensate-end": "where the plastic drain pipe ends",
    }
)
"""Everything a home's page can say the place of, and what it is in plain words."""


@dataclass(frozen=True, slots=True)
class Home:
    """One home, opened by its key.

    `range` is a range's id, `appliance` the words on the plate, `places` says in plain words where things are.
    Raises ValueError, naming everything at once, for a fact or a place that there is no such thing as.
    """

    key: str
    range: str
    appliance: str
    known: Known = NOTHING_KNOWN
    places: Mapping[str, str] = field(default_factory=dict)
    fitted: date | None = None
    next_service: date | None = None

    def __post_init__(self) -> None:
        """Refuse what no page could use."""
        wrong = [*_wrong_facts(self.known.facts), *_wrong_places(self.places)]
        if wrong:
            raise ValueError(f"The home {self.key} cannot be used: {'; '.join(wrong)}.")

    def __hash__(self) -> int:
        """By the key: equal homes have equal keys, and what is known of a home need not be hashable."""
        return hash(self.key)


def home_limits(home: Home, family: Range) -> Known:
    """What is known about a home, with the stricter of its own and its range's limits."""
    limits = dict(home.known.limits)
    for action, at_most in family.limits.items():
        limits[action] = min(at_most, limits.get(action, at_most))
    return replace(home.known, limits=limits)


def _wrong_facts(facts: Mapping[str, str]) -> Iterator[str]:
    for fact, value in facts.items():
        values = values_of(fact)
        if values is None:
            yield f"there is no fact {fact!r}"
        elif value not in values:
            yield f"{fact} is {value!r}, expected one of {', '.join(values)}"


def _wrong_places(places: Mapping[str, str]) -> Iterator[str]:
    for place, words in places.items():
        if place not in PLACES:
            yield f"there is no place {place!r}, expected one of {', '.join(PLACES)}"
        elif not words.strip():
            yield f"the place {place!r} is empty"

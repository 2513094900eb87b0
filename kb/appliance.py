"""What a range of appliances is: a family with the same display, reset, filling and fault codes."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from kb.findings import Place
from kb.prose import Block

NO_FAULT: Final = "no-fault"
"""The category of a display that shows what the appliance is doing, and nothing wrong."""

ENGINEER_ONLY: Final = "engineer-only"
"""The category of a fault that leaves a household nothing to look at: somebody has to come."""


class Make(StrEnum):
    """How an appliance makes hot water, which decides what else is in the house."""

    COMBI = "combi"
    SYSTEM = "system"
    HEAT_ONLY = "heat-only"


class Display(StrEnum):
    """What a person reads a fault from."""

    SEVEN_SEGMENT = "seven-segment"
    TEXT = "text"
    LIGHTS = "lights"


class Clears(StrEnum):
    """What makes a fault code go away."""

    ITSELF = "itself"
    RESET = "reset"
    ENGINEER = "engineer"


@dataclass(frozen=True, slots=True)
class Code:
    """One fault code: as the display shows it, the panel's own words for it, and the category it belongs to.

    `code` is empty on a display that shows words and no code.
    """

    code: str
    says: str
    category: str
    clears: Clears
    source: str
    place: Place

    @property
    def shown(self) -> str:
        """What a person reads on the display."""
        return self.code or self.says


@dataclass(frozen=True, slots=True)
class Range:
    """A family of appliances, as its markdown file tells it.

    `limits` says how often a thing may be tried where the appliance's own instructions are stricter;
    `reset` and `filling` are shown to a household at the step that asks for them.
    """

    id: str
    name: str
    kind: Make
    display: Display
    limits: Mapping[str, int]
    reset: tuple[Block, ...]
    filling: tuple[Block, ...]
    codes: tuple[Code, ...]
    file: str

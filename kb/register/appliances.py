"""What burns or heats in a home?"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import Final

from kb.facts import FACTS

FUELS: Final[Mapping[str, str]] = MappingProxyType({**FACTS["fuel"], "electric": "electricity", "solid": "solid fuel"})
"""What an appliance can run on."""

KINDS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "combi": "boiler that heats tap water as it runs",
        "system": "boiler with a cylinder, its pump inside",
        "heat-only": "boiler with a cylinder, its pump outside",
        "back-boiler": "boiler behind a fire",
        "warm-air": "warm air heater",
        "water-heater": "water heater",
        "fire": "fire",
        "cooker": "cooker or hob",
        "cylinder": "hot water cylinder",
        "other": "something else",
    }
)
"""Every kind of appliance, in plain words."""


@dataclass(frozen=True, slots=True)
class Appliance:
    """One appliance: `range` is a range's id, empty where there is none; `plate` the words on its plate."""

    plate: str
    range: str = ""
    fuel: str | None = None
    kind: str | None = None
    serial: str = ""
    fitted: date | None = None
    warranty_ends: date | None = None
    serviced: date | None = None
    next_service: date | None = None

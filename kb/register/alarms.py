"""Which alarms hang in a home, and when are they past their time?"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import Final

ALARMS: Final[Mapping[str, str]] = MappingProxyType(
    {"smoke": "smoke alarm", "co": "carbon monoxide alarm", "heat": "heat alarm"}
)
"""Every kind of alarm."""


@dataclass(frozen=True, slots=True)
class Alarm:
    """An alarm, where it hangs, and the day printed on it after which it must be replaced."""

    kind: str
    place: str
    ends: date | None = None

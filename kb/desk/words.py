"""In which words does the desk speak of paces, works and answers?"""

from collections.abc import Mapping
from datetime import datetime
from typing import Final
from zoneinfo import ZoneInfo

from kb.article import Pace
from kb.days import full_moment

PACE_WORDS: Final[Mapping[Pace, str]] = {
    Pace.LEAVE: "Leave at once: the emergency service first",
    Pace.MAKE_SAFE: "Make safe: within two to four hours",
    Pace.TODAY: "Today: within 24 hours at most",
    Pace.THREE_DAYS: "Within three working days",
    Pace.ROUTINE: "Routine: a visit that suits both",
    Pace.ADVICE: "Advice: no visit",
}
"""How soon, in the words of the desk."""

SAID_WORDS: Final[Mapping[str, str]] = {
    "yes": "Yes",
    "no": "No",
    "partly": "In part",
    "not-sure": "Not sure, taken as yes",
    "not-asked": "Not asked",
}
"""Answers, in words."""


def clock(at: datetime | None, zone: ZoneInfo) -> str:
    """The time of day where the firm is, to the second."""
    return f"{at.astimezone(zone):%H:%M:%S}" if at else ""


def day_and_time(at: datetime, zone: ZoneInfo) -> str:
    """The day and the time where the firm is."""
    return f"{at.astimezone(zone):%A} {full_moment(at, zone)}"

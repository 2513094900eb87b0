"""What was agreed about a visit, may it be so late, and what is the caller told?"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from typing import Final
from zoneinfo import ZoneInfo

from kb.appointment.windows import MIDNIGHT, NOON, Unfit, Window, clock, moment, read_window, words
from kb.article import Pace
from kb.days import weekday
from kb.hours import on_wall

MAKE_SAFE_WITHIN: Final = timedelta(hours=4)
TODAY_WITHIN: Final = timedelta(hours=24)
WORKING_DAYS: Final = 3
"""What the paces promise, as `kb.desk.words.PACE_WORDS` says it to people."""

LONGEST_AHEAD: Final = 200
"""Nobody agrees a day further off, in days: so far off it is a slip of the pen."""

_LAST_WORKDAY: Final = 4
_EVENING: Final = 18 * 60


@dataclass(frozen=True, slots=True)
class Appointment:
    """What was agreed: when, who comes (nobody named: whoever is free), and why it may be later than promised.

    `latest` is by when the pace wanted somebody there as it was agreed; `by` and `at` say who wrote it down and when.
    """

    window: Window
    engineer: str = ""
    why: str = ""
    latest: datetime | None = None
    by: str = ""
    at: datetime | None = None


def due(pace: Pace, asked: datetime, zone: ZoneInfo) -> datetime | None:
    """By when a pace wants somebody there; None where it promises no day."""
    match pace:
        case Pace.LEAVE | Pace.MAKE_SAFE:
            return (asked + MAKE_SAFE_WITHIN).astimezone(UTC)
        case Pace.TODAY:
            return (asked + TODAY_WITHIN).astimezone(UTC)
        case Pace.THREE_DAYS:
            return on_wall(_working_day(asked.astimezone(zone).date(), WORKING_DAYS), MIDNIGHT, zone)
    return None


def agree(
    window: Window | Unfit, engineer: str, why: str, latest: datetime | None, now: datetime, zone: ZoneInfo
) -> Appointment | Unfit:
    """An appointment in a window, unless it is over, too far off, or late without a reason."""
    if isinstance(window, Unfit):
        return window
    if window.ends(zone) <= now:
        return Unfit("a time to come", words(window), "It is over. Choose another.")
    if (window.day - now.astimezone(zone).date()).days > LONGEST_AHEAD:
        return Unfit("a day that is not so far off", words(window), "Look at the year again.")
    if latest is not None and window.ends(zone) > latest and not why.strip():
        expected = f"a time that is over by {moment(latest, zone)}, which the pace wants"
        return Unfit(expected, words(window), "Choose a sooner one, or write why it may be later.")
    return Appointment(window, engineer, why.strip(), latest)


def stands(agreed: Appointment, latest: datetime | None, zone: ZoneInfo) -> bool:
    """Whether what was agreed still fits; a reason for later holds only while nothing asks for sooner than then."""
    if latest is None or agreed.window.ends(zone) <= latest:
        return True
    return bool(agreed.why) and agreed.latest is not None and agreed.latest <= latest


def spoken(agreed: Appointment, pace: Pace, today: date) -> str:
    """What is said to the caller of what was agreed; where the emergency service goes first, that as well."""
    window = agreed.window
    near = {0: "today, ", 1: "tomorrow, "}.get((window.day - today).days, "")
    who = agreed.engineer or "one of our engineers"
    between = f"between {clock(window.opens)} and {clock(window.closes)}"
    comes = f"{who} comes {near}on {weekday(window.day)}{_part(window)}, {between}. Somebody grown up must be in."
    if pace is Pace.LEAVE:
        return f"The emergency service goes first. Once it has left the home safe, {comes}"
    return f"{comes[0].upper()}{comes[1:]}"


def said(agreed: Appointment) -> Mapping[str, str]:
    """An appointment as the event of a call keeps it."""
    latest = agreed.latest.isoformat() if agreed.latest else ""
    return {"window": agreed.window.sent, "engineer": agreed.engineer, "why": agreed.why, "latest": latest}


def heard(said: Mapping[str, str], by: str = "", at: datetime | None = None) -> Appointment | None:
    """An appointment from the event of a call; None where nothing usable stands in it."""
    window = read_window(said.get("window", ""))
    if isinstance(window, Unfit):
        return None
    latest = said.get("latest", "")
    until = datetime.fromisoformat(latest) if latest else None
    return Appointment(window, said.get("engineer", ""), said.get("why", ""), until, by, at)


def _part(window: Window) -> str:
    if window.closes <= NOON:
        return " in the morning"
    if window.opens >= _EVENING:
        return " in the evening"
    return " in the afternoon" if window.opens >= NOON else ""


def _working_day(day: date, count: int) -> date:
    """The working day that is so many after a day; holidays are not known, so none is left out."""
    while count:
        day += timedelta(days=1)
        count -= day.weekday() <= _LAST_WORKDAY
    return day

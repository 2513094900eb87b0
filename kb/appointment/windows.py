"""Which stretch of which day is meant, and how is it said?"""

import re
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from typing import Final
from zoneinfo import ZoneInfo

from kb.days import clock as wall_clock
from kb.days import weekday
from kb.hours import on_wall

NOON: Final = 12 * 60
MIDNIGHT: Final = 24 * 60

_NEAR: Final = {"today": 0, "tomorrow": 1}
_DAY_AND_MONTH: Final = re.compile(r"(\d{1,2})[/. -](\d{1,2})(?:[/. -](\d{4}))?", re.ASCII)


@dataclass(frozen=True, slots=True)
class Window:
    """A stretch of one day, in minutes since midnight on the firm's wall; `outside` its opening hours or not."""

    day: date
    opens: int
    closes: int
    outside: bool = False

    @property
    def sent(self) -> str:
        """The window as a form sends it."""
        return f"{self.day} {self.opens} {self.closes}"

    def begins(self, zone: ZoneInfo) -> datetime:
        """The moment it begins, in UTC."""
        return on_wall(self.day, self.opens, zone)

    def ends(self, zone: ZoneInfo) -> datetime:
        """The moment it is over, in UTC."""
        return on_wall(self.day, self.closes, zone)


@dataclass(frozen=True, slots=True)
class Unfit:
    """Why a time cannot be agreed: what was expected, what was found, what to do next."""

    expected: str
    found: str
    remedy: str

    def __str__(self) -> str:
        return f"Expected {self.expected}, found {self.found}. {self.remedy}"


def read_window(sent: str) -> Window | Unfit:
    """A window from what a form sends for it."""
    day, _, rest = sent.partition(" ")
    opens, _, closes = rest.partition(" ")
    if not all(each.isascii() and each.isdigit() and len(each) < 5 for each in (opens, closes)):
        return Unfit("a day and a window", f"“{sent[:40]}”", "Choose one of those offered.")
    return _window(day, int(opens), int(closes))


def typed_window(day: str, opens: str, closes: str, today: date) -> Window | Unfit:
    """A window from a day and two times of day as somebody typed them, a weekday meaning the next one."""
    times = [_minutes(each) for each in (opens, closes)]
    if times[0] is None or times[1] is None:
        return Unfit("two times of day", f"“{opens[:10]}” and “{closes[:10]}”", "Write them like 8:00 and 12:00.")
    found = _typed_day(day, today)
    return _window(str(found) if found else day, times[0], times[1])


def words(window: Window) -> str:
    """A window in words."""
    return f"{weekday(window.day)}, {clock(window.opens)} to {clock(window.closes)}"


def moment(at: datetime, zone: ZoneInfo) -> str:
    """A moment in words; one at midnight is the end of its day."""
    there = at.astimezone(zone)
    if (there.hour, there.minute) == (0, 0):
        return f"the end of {weekday(there - timedelta(days=1))}"
    return f"{weekday(there)}, {wall_clock(there)}"


def clock(minutes: int) -> str:
    """A time of day, in minutes since midnight, as it is said."""
    return "midnight" if minutes == MIDNIGHT else wall_clock(time(minutes // 60 % 24, minutes % 60))


def _typed_day(typed: str, today: date) -> date | None:
    """A day such as today, mon, 30/11 or 30 11 2026; None for none of these, which may still be written in full."""
    plain = typed.strip().casefold()
    if plain in _NEAR:
        return today + timedelta(days=_NEAR[plain])
    week = [today + timedelta(days=ahead) for ahead in range(1, 8)]
    named = next((day for day in week if plain in (f"{day:%a}".casefold(), f"{day:%A}".casefold())), None)
    if named is not None:
        return named
    found = _DAY_AND_MONTH.fullmatch(plain)
    if found is None:
        return None
    try:
        year = int(found[3]) if found[3] else today.year
        day = date(year, int(found[2]), int(found[1]))
        return day if found[3] or day >= today else day.replace(year=year + 1)
    except ValueError:
        return None


def _window(day: str, opens: int, closes: int) -> Window | Unfit:
    try:
        on = date.fromisoformat(day.strip())
    except ValueError:
        return Unfit("a day", f"“{day[:20]}”", "Write it like mon, 26/11 or 2026-11-26.")
    if not 0 <= opens < closes <= MIDNIGHT:
        return Unfit("a beginning before its end", f"{clock(opens)} to {clock(closes)}", "Write both again.")
    return Window(on, opens, closes)


def _minutes(typed: str) -> int | None:
    hours, _, minutes = typed.strip().replace(".", ":").partition(":")
    minutes = minutes or "00"
    if not (hours.isascii() and hours.isdigit() and minutes.isascii() and minutes.isdigit()):
        return None
    found = int(hours[:3]) * 60 + int(minutes[:3])
    return found if len(minutes) == 2 and int(minutes) < 60 and found <= MIDNIGHT else None

"""Which half days may be offered to a caller?"""

from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from itertools import islice
from typing import Final
from zoneinfo import ZoneInfo

from kb.appointment.agreed import due
from kb.appointment.windows import MIDNIGHT, NOON, Window
from kb.article import Pace
from kb.hours import WEEKDAYS, Hours, on_wall, stretches

MOST_OFFERED: Final = 8

_QUARTER: Final = 15
_LEAST: Final = 60
_USUALLY_OPENS: Final = 8 * 60
_USUALLY_CLOSES: Final = 17 * 60


def offers(
    hours: Hours, zone: ZoneInfo, pace: Pace, asked: datetime, now: datetime, most: int = MOST_OFFERED
) -> tuple[Window, ...]:
    """The half days that may be offered: within the opening hours, and never later than the pace allows.

    Where the firm opens too late for a pace, what is left of the time is offered outside its hours.
    """
    until = due(pace, asked, zone)
    if until is None:
        # Nothing presses: a day for which both can prepare.
        tomorrow = on_wall(now.astimezone(zone).date() + timedelta(days=1), 0, zone)
        return tuple(islice(_halves(hours, zone, max(now, tomorrow)), most))
    if until <= now:
        return tuple(islice(_halves(hours, zone, now), most))
    fitting = (_clipped(each, until, zone) for each in _halves(hours, zone, now))
    found = tuple(islice((each for each in fitting if each is not None), most))
    return found or tuple(_outside(now, until, zone))


def half_day(hours: Hours, day: date, afternoon: bool) -> Window:
    """A morning or an afternoon as long as the firm is open in it; on a day it is closed, as other firms would be."""
    first, last = (NOON, MIDNIGHT) if afternoon else (0, NOON)
    open_then = [
        (max(each.opens, first), min(each.closes, last))
        for each in hours.get(WEEKDAYS[day.weekday()], ())
        if each.opens < last and each.closes > first
    ]
    if open_then:
        return Window(day, open_then[0][0], open_then[-1][1])
    return Window(day, NOON, _USUALLY_CLOSES) if afternoon else Window(day, _USUALLY_OPENS, NOON)


def _halves(hours: Hours, zone: ZoneInfo, now: datetime) -> Iterator[Window]:
    """What is left of every morning and afternoon in the opening hours, each an hour long at least."""
    parts = [each for part in ((0, NOON), (NOON, MIDNIGHT)) for each in stretches(hours, zone, now, part)]
    for begins, ends in sorted(parts, key=lambda each: each[0].astimezone(UTC)):
        window = _between(begins, ends)
        if window.closes - window.opens >= _LEAST:
            yield window


def _clipped(window: Window, until: datetime, zone: ZoneInfo) -> Window | None:
    """A window that is over when the pace wants somebody there; None where too little of it is left."""
    if window.ends(zone) <= until:
        return window
    there = until.astimezone(zone)
    closes = there.hour * 60 + there.minute if there.date() == window.day else 0
    closes -= closes % _QUARTER
    return Window(window.day, window.opens, closes) if closes - window.opens >= _LEAST else None


def _outside(now: datetime, until: datetime, zone: ZoneInfo) -> Iterator[Window]:
    """What is left until a moment, a window a day."""
    there, end = now.astimezone(zone), until.astimezone(zone)
    for ahead in range((end.date() - there.date()).days + 1):
        day = there.date() + timedelta(days=ahead)
        opens = _up(there.hour * 60 + there.minute) if ahead == 0 else 0
        closes = MIDNIGHT if day != end.date() else end.hour * 60 + end.minute
        closes -= closes % _QUARTER
        if closes > opens:
            yield Window(day, opens, closes, outside=True)


def _between(begins: datetime, ends: datetime) -> Window:
    closes = ends.hour * 60 + ends.minute
    return Window(begins.date(), _up(begins.hour * 60 + begins.minute), closes or MIDNIGHT)


def _up(minutes: int) -> int:
    return -(-minutes // _QUARTER) * _QUARTER

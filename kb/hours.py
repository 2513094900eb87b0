"""Is the firm open, and when does it next open, by the clock on its own wall?"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from typing import Final, Literal, TypeAlias
from zoneinfo import ZoneInfo

Weekday: TypeAlias = Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
WEEKDAYS: Final[tuple[Weekday, ...]] = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
"""The days in the order that `datetime.weekday` counts them."""

_WRITTEN: Final = re.compile(r"([0-2]\d):([0-5]\d)-([0-2]\d):([0-5]\d)")
_DAY: Final = 24 * 60


@dataclass(frozen=True, slots=True, order=True)
class Opening:
    """A stretch of a day, in minutes since midnight on the wall clock; it ends just before `closes`."""

    opens: int
    closes: int

    @classmethod
    def read(cls, written: str) -> "Opening":
        """An opening from words like 08:00-17:30, the end at the latest 24:00.

        Raises ValueError for anything else.
        """
        found = _WRITTEN.fullmatch(written.strip())
        minutes = [int(part) for part in found.groups()] if found else [0, 0, 0, 0]
        opens, closes = minutes[0] * 60 + minutes[1], minutes[2] * 60 + minutes[3]
        if not opens < closes <= _DAY:
            raise ValueError(f"expected a stretch of one day like 08:00-17:30, found {written!r}")
        return cls(opens, closes)

    def __str__(self) -> str:
        """The opening as `read` takes it."""
        return f"{_clock(self.opens)}-{_clock(self.closes)}"


Hours: TypeAlias = Mapping[Weekday, tuple[Opening, ...]]


def is_open(hours: Hours, zone: ZoneInfo, at: datetime) -> bool:
    """Whether the wall clock in `zone` stands within an opening at this moment."""
    there = _there(at, zone)
    minute = there.hour * 60 + there.minute
    return any(opening.opens <= minute < opening.closes for opening in hours.get(WEEKDAYS[there.weekday()], ()))


def opens_next(hours: Hours, zone: ZoneInfo, at: datetime) -> datetime | None:
    """The first beginning of an opening after this moment, in `zone`, or None if there never is one.

    An opening that begins in an hour the clocks skip begins when they have skipped it.
    """
    there = _there(at, zone)
    for ahead in range(len(WEEKDAYS) + 1):
        day = there.date() + timedelta(days=ahead)
        for opening in sorted(hours.get(WEEKDAYS[day.weekday()], ())):
            begins = datetime.combine(day, time(opening.opens // 60, opening.opens % 60), zone).astimezone(UTC)
            # Two times of one zone compare by the wall clock, which runs backwards once a year: compare in UTC.
            if begins > there.astimezone(UTC):
                return begins.astimezone(zone)
    return None


def stretches(
    hours: Hours, zone: ZoneInfo, at: datetime, within: tuple[int, int] = (0, _DAY), days: int = 14
) -> Iterator[tuple[datetime, datetime]]:
    """What is left of every opening from this moment on, in `zone`, its beginning and its end.

    `within` takes a part of each day alone, in minutes since midnight.
    """
    there = _there(at, zone)
    for ahead in range(days + 1):
        day = there.date() + timedelta(days=ahead)
        for opening in sorted(hours.get(WEEKDAYS[day.weekday()], ())):
            begins = max(on_wall(day, max(opening.opens, within[0]), zone), there.astimezone(UTC))
            ends = on_wall(day, min(opening.closes, within[1]), zone)
            if begins < ends:
                yield begins.astimezone(zone), ends.astimezone(zone)


def on_wall(day: date, minutes: int, zone: ZoneInfo) -> datetime:
    """The moment when the clock on the wall shows so many minutes of a day, in UTC, where two moments compare."""
    later, minute = divmod(minutes, _DAY)
    there = datetime.combine(day + timedelta(days=later), time(minute // 60, minute % 60), zone)
    return there.astimezone(UTC)


def _there(at: datetime, zone: ZoneInfo) -> datetime:
    if at.tzinfo is None:
        raise ValueError(f"Expected a time that says its zone, found {at.isoformat()}. Give it one, such as UTC.")
    return at.astimezone(zone)


def _clock(minutes: int) -> str:
    return f"{minutes // 60:02}:{minutes % 60:02}"

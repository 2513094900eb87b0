"""How is a day, or a moment of it, said to people?"""

from datetime import date, datetime, time, tzinfo


def full_day(day: date | None) -> str:
    """A day with its year, such as 4 October 2026; nothing for none."""
    return f"{day.day} {day:%B %Y}" if day else ""


def full_moment(at: datetime, zone: tzinfo) -> str:
    """A moment on the wall clock of a place, such as 4 October 2026, 14:05."""
    return said_moment(at.astimezone(zone))


def said_moment(there: datetime) -> str:
    """The same of a moment that is on that clock already."""
    return f"{full_day(there)}, {there:%H:%M}"


def weekday(day: date) -> str:
    """A day of about now with its name, such as Sunday 4 October."""
    return f"{day:%A} {short_day(day)}"


def short_day(day: date) -> str:
    """A day of about now, such as 4 October."""
    return f"{day.day} {day:%B}"


def clock(at: time | datetime) -> str:
    """A time of day as people say it, such as 8:05."""
    return f"{at.hour}:{at:%M}"

"""How are a firm's opening hours said in one or two short lines?"""

from collections.abc import Iterator
from itertools import groupby

from kb.card import words
from kb.hours import WEEKDAYS, Hours, Weekday

_WHOLE_DAY = "00:00-24:00"


def said(hours: Hours) -> tuple[str, ...]:
    """The hours, days that follow one another and have the same ones taken together; closed days are not said."""
    days = [(day, tuple(str(opening) for opening in hours.get(day, ()))) for day in WEEKDAYS]
    if all(openings == (_WHOLE_DAY,) for _, openings in days):
        return (words.ALWAYS,)
    return tuple(_spans(days))


def _spans(days: list[tuple[Weekday, tuple[str, ...]]]) -> Iterator[str]:
    for openings, group in groupby(days, key=lambda day: day[1]):
        names = [day for day, _ in group]
        if openings:
            yield f"{_named(names)} {', '.join(opening.replace('-', '–') for opening in openings)}"


def _named(days: list[Weekday]) -> str:
    first, last = words.DAYS[days[0]], words.DAYS[days[-1]]
    if len(days) == len(WEEKDAYS):
        return words.EVERY_DAY
    return first if first == last else words.DAYS_SPAN.format(first=first, last=last)

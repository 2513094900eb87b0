"""Which calls were not clear of danger within the first minute, and at which question did they stick?"""

from collections import Counter
from collections.abc import Callable, Sequence
from typing import Final
from zoneinfo import ZoneInfo

from kb.figures.figure import Cell, Table
from kb.figures.rows import SlowCall

COLUMNS: Final = ("Began", "Danger over after, in seconds", "Took longest", "Seconds at it")
NEVER: Final = "never all answered"
UNKNOWN: Final = "not known"


def slow_table(calls: Sequence[SlowCall], zone: ZoneInfo, words: Callable[[str], str]) -> Table:
    """One call a line, as the clock of the firm had it; nothing about who rang."""
    return Table(COLUMNS, tuple(_row(each, zone, words) for each in calls))


def stuck_most(calls: Sequence[SlowCall], words: Callable[[str], str]) -> tuple[tuple[str, int], ...]:
    """The questions at which most calls stuck, and how many."""
    found = Counter(each.stuck for each in calls if each.stuck)
    return tuple((words(step), times) for step, times in sorted(found.items(), key=lambda each: (-each[1], each[0])))


def _row(call: SlowCall, zone: ZoneInfo, words: Callable[[str], str]) -> tuple[Cell, ...]:
    return (
        f"{call.began.astimezone(zone):%Y-%m-%d %H:%M}",
        NEVER if call.danger is None else round(call.danger),
        words(call.stuck) if call.stuck else UNKNOWN,
        None if call.stuck_for is None else round(call.stuck_for),
    )

"""Which parts go along for nothing, where do people give up, which homes call often, which services are overdue?"""

from collections.abc import Callable, Sequence
from typing import Final

from kb.figures.figure import Bar, Bars, Figure, Point, Table, percent
from kb.figures.rows import LATE, Caller, PartsAlike, StopsAlike
from kb.figures.words import counted

_SHOWN: Final = 10
OFTEN: Final = 3
"""A home that called so often in a year calls often (common practice)."""


def parts(found: Sequence[PartsAlike]) -> Figure:
    """How often each part was taken along, and used."""
    order = sorted(found, key=lambda each: (-each.taken, -each.wanted, each.part))
    taken, used = sum(each.taken for each in order), sum(each.used for each in order)
    wanted = sum(each.wanted for each in order)
    says = (
        f"{percent(used, taken).capitalize()} of the parts taken along were used. "
        f"{counted(wanted, 'time')} a part was wanted that nobody had taken."
    )
    bars = tuple(_part(each) for each in order[:_SHOWN] if each.taken)
    rows = tuple((each.part, each.taken, each.used, Point(each.used, each.taken).share, each.wanted) for each in order)
    columns = ("Part", "Taken along", "Used of those", "Share", "Wanted, not there")
    chart = Bars(bars, "used", "taken along")
    note = _only(len(bars), len(order), "parts taken most often")
    return Figure("parts", "Parts taken against used", says, taken, "parts", chart, Table(columns, rows), note)


def _part(each: PartsAlike) -> Bar:
    label = each.part[:1].upper() + each.part[1:]
    return Bar(label, each.taken, f"{each.used} of {each.taken}", each.used)


def stops(found: Sequence[StopsAlike], words: Callable[[str], str]) -> Figure:
    """The steps at which people give up, by themselves or with the desk."""
    order = sorted(found, key=lambda each: (-(each.alone + each.desk), each.step))
    total = sum(each.alone + each.desk for each in order)
    alone = sum(each.alone for each in order)
    first = order[0] if order else None
    most = f" Most often at “{words(first.step)}”." if first else ""
    says = f"{counted(total, 'walk')} stopped at a step, {alone:,} of them before anybody rang.{most}"
    bars = tuple(
        Bar(words(each.step), each.alone + each.desk, f"{each.alone + each.desk}", each.alone)
        for each in order[:_SHOWN]
    )
    rows = tuple((words(each.step), each.alone, each.desk, each.alone + each.desk) for each in order)
    table = Table(("Step", "By themselves", "With the desk", "Together"), rows)
    chart = Bars(bars, "by themselves, then rang", "with the desk")
    note = _only(len(bars), len(order), "steps where it happens most")
    return Figure("steps", "The step at which people give up", says, total, "walks", chart, table, note)


def callers(found: Sequence[Caller], homes: int) -> Figure:
    """The homes that called most often in the last year."""
    order = sorted(found, key=lambda each: (-each.calls, each.key))
    says = (
        f"{counted(len(order), 'home')} of {homes:,} that called did so {OFTEN} times or more in the last year."
        if order
        else f"No home called {OFTEN} times or more in the last year."
    )
    bars = tuple(Bar(f"{each.appliance} · {each.key}", each.calls, f"{each.calls}") for each in order[:_SHOWN])
    table = Table(("Home", "Appliance", "Calls"), tuple((each.key, each.appliance, each.calls) for each in order))
    note = f"Always the last year. {_only(len(bars), len(order), 'homes that call most')}".strip()
    return Figure("homes", "Homes that call often", says, homes, "homes that called", Bars(bars), table, note, True)


def overdue(late: Sequence[int], dated: int) -> Figure:
    """Services that should have been done by today, by how late they are."""
    counts = list(late) or [0] * len(LATE)
    total = sum(counts)
    says = f"{counted(total, 'service')} of {dated:,} with a date should have been done by today."
    bars = tuple(Bar(words.capitalize(), count, f"{count}") for (_, words), count in zip(LATE, counts, strict=True))
    rows = tuple((words.capitalize(), count) for (_, words), count in zip(LATE, counts, strict=True))
    table = Table(("How late", "Services"), rows)
    note = "As of today, whatever time is chosen above."
    return Figure("overdue", "Services overdue", says, dated, "appliances with a date", Bars(bars), table, note, True)


def _only(shown: int, all: int, what: str) -> str:
    return f"The picture shows the {shown} {what}; the table shows all {all}." if shown < all else ""

"""How soon must somebody go, and why not later?

It begins with what the end says.
Each circumstance that makes waiting worse is a reason, and every reason is kept in words.
Up to `today` a reason is one step sooner; from there it takes two reasons together, as where cold meets need.
Published repair times are floors under that: nothing is slower than they allow.
A person's need only ever makes it sooner, and people nobody asked about count as in need.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import Final

from kb.article import Pace
from kb.days import short_day

FREEZING: Final = 0.0
"""Outdoors, in degrees Celsius: at or below it a cold home cools fast and pipes freeze (common practice)."""

COLD_INDOORS: Final = 16.0
"""In degrees Celsius: below it a room is hard on the old, the young and the ill (public health advice)."""

REPEAT_DAYS: Final = 28
"""A call about the same home within so many days is a repeat (common practice of the trade)."""

_ORDER: Final = tuple(Pace)
_BY_DANGER: Final = frozenset({Pace.LEAVE, Pace.MAKE_SAFE})


class Works(StrEnum):
    """Whether something works, as the caller says it."""

    YES = "yes"
    PARTLY = "partly"
    NO = "no"
    NOT_ASKED = "not-asked"

    @property
    def lost(self) -> bool:
        """Whether it is known to be lost, wholly or in part."""
        return self in (Works.PARTLY, Works.NO)


@dataclass(frozen=True, slots=True)
class Circumstances:
    """What bears on the pace beside the end.

    `needs` are kinds of `kb.register.NEEDS`, never an illness; None means that nobody asked, or nobody knew.
    None means the same for each other value.
    """

    on: date
    needs: frozenset[str] | None = None
    outdoor: float | None = None
    indoor: float | None = None
    heating: Works = Works.NOT_ASKED
    hot_water: Works = Works.NOT_ASKED
    other_heat: bool | None = None
    other_hot_water: bool | None = None
    spreading: bool | None = None
    repeat_of: date | None = None

    @property
    def in_need(self) -> bool:
        """Whether somebody at home has a need, or may have one."""
        return self.needs is None or bool(self.needs)

    @property
    def freezing(self) -> bool:
        """Whether it is known to freeze, outdoors or even indoors."""
        return any(each is not None and each <= FREEZING for each in (self.outdoor, self.indoor))

    @property
    def repeat(self) -> bool:
        """Whether the same home rang not long ago."""
        return self.repeat_of is not None and (self.on - self.repeat_of).days <= REPEAT_DAYS


@dataclass(frozen=True, slots=True)
class Judged:
    """How soon somebody goes.

    `floor` is the slowest pace that a handler may choose; `reasons` say in words what made it sooner, and what
    holds it there; `unasked` what could still make it sooner.
    """

    from_end: Pace
    pace: Pace
    floor: Pace
    by_danger: bool
    reasons: tuple[str, ...]
    unasked: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Refused:
    """Why a handler's choice is not taken, and what to do instead."""

    why: str


def sooner(*paces: Pace) -> Pace:
    """The soonest of some paces."""
    return min(paces, key=_ORDER.index)


def is_sooner(pace: Pace, than: Pace) -> bool:
    """Whether a pace is sooner than another."""
    return _ORDER.index(pace) < _ORDER.index(than)


def cold_season(day: date) -> bool:
    """Whether a day lies between 31 October and 1 May, both counted."""
    return (day.month, day.day) >= (10, 31) or (day.month, day.day) <= (5, 1)


def judge(end: Pace, around: Circumstances, by_danger: bool = False) -> Judged:
    """The pace of an end in these circumstances.

    What danger set stays as it is; nothing but a repeat makes a visit out of advice.
    """
    if end in _BY_DANGER:
        return Judged(end, end, end, True, ("Danger decides: nothing makes this slower.",), ())
    if end is Pace.ADVICE:
        return _advice(around, by_danger)
    reasons = tuple(_reasons(around))
    raised = _raised(end, len(reasons))
    floors = tuple(_floors(around))
    floor = sooner(Pace.ADVICE, *(pace for pace, _ in floors), *([end] if by_danger else []))
    pace = sooner(raised, floor)
    held = tuple(why for each, why in floors if each is pace)
    return Judged(end, pace, floor, by_danger, (*reasons, *held), tuple(_unasked(around)))


def chosen(judged: Judged, to: Pace, why: str) -> Pace | Refused:
    """The pace a handler chooses: sooner freely, later only for a reason and never below the floor."""
    if to is judged.pace:
        return to
    if judged.by_danger and judged.pace in _BY_DANGER:
        return Refused("Danger set this pace. It stays.")
    if to is Pace.LEAVE:
        return Refused("Only danger sends people out. Ask the danger questions again.")
    if is_sooner(to, judged.pace):
        return to
    if is_sooner(judged.floor, to):
        return Refused("It may not be that late: see the reasons.")
    return to if why.strip() else Refused("Write why it may be later.")


def _advice(around: Circumstances, by_danger: bool) -> Judged:
    reasons = tuple(_repeat(around))
    pace = Pace.ROUTINE if reasons else Pace.ADVICE
    return Judged(Pace.ADVICE, pace, Pace.ADVICE, by_danger, reasons, ())


def _raised(end: Pace, reasons: int) -> Pace:
    place = _ORDER.index(end)
    today = _ORDER.index(Pace.TODAY)
    steps = min(reasons, max(0, place - today))
    left = reasons - steps
    return _ORDER[place - steps - (1 if left >= 2 else 0)]


def _reasons(around: Circumstances) -> Iterator[str]:
    if around.needs is None:
        yield "Nobody knows yet who is at home, so somebody in need is assumed."
    elif around.needs:
        yield "Somebody at home needs more than others do."
    if around.freezing:
        yield "It is freezing."
    elif around.indoor is not None and around.indoor < COLD_INDOORS:
        yield f"It is under {COLD_INDOORS:g} degrees indoors."
    if around.heating is not Works.YES and around.other_heat is False:
        yield "Nothing else heats the home."
    if around.hot_water is not Works.YES and around.other_hot_water is False and around.in_need:
        yield "There is no other hot water, and somebody may need it."
    if around.spreading:
        yield "The damage spreads."
    yield from _repeat(around)


def _repeat(around: Circumstances) -> Iterator[str]:
    if around.repeat and around.repeat_of is not None:
        yield f"They rang about this home on {short_day(around.repeat_of)}, within {REPEAT_DAYS} days."


def _floors(around: Circumstances) -> Iterator[tuple[Pace, str]]:
    """Published repair times; `tests/kb/triage/test_pace.py` names the kind of source of each."""
    season = cold_season(around.on)
    no_water = around.hot_water.lost and around.other_hot_water is not True
    if around.heating.lost and around.freezing and around.in_need:
        yield Pace.MAKE_SAFE, "No heat in frost, with somebody in need: made safe within hours."
    if around.heating.lost and season and around.in_need:
        yield Pace.TODAY, "No heat in the cold season, with somebody in need: today at the latest."
    if (around.heating.lost or no_water) and season:
        yield Pace.TODAY, "Heat or hot water lost between 31 October and 1 May: one working day."
    if around.heating.lost or no_water:
        yield Pace.THREE_DAYS, "Heat or hot water lost: three working days at most."


def _unasked(around: Circumstances) -> Iterator[str]:
    if around.needs is None:
        yield "who is at home"
    if around.heating is Works.NOT_ASKED:
        yield "whether the heating works"
    if around.hot_water is Works.NOT_ASKED:
        yield "whether there is hot water"
    if around.indoor is None:
        yield "how cold it is indoors"
    if around.outdoor is None:
        yield "how cold it is outdoors"
    if around.other_heat is None and around.heating is not Works.YES:
        yield "whether something else heats the home"
    if around.other_hot_water is None and around.hot_water is not Works.YES:
        yield "whether there is other hot water"

"""Pace against published practice.

Sources, by kind: the right-to-repair schedule is statute (Secure Tenants of Local Authorities (Right to Repair)
Regulations 1994, England; read through councils' pages); winter and vulnerability rules are published policies of
social landlords; make-safe within 24 hours for emergency hazards is statute for social landlords in England from
27 October 2025 (from memory of its guidance). The two-hour and four-hour targets of `make-safe` are a council's policy.
"""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kb.article import Pace
from kb.register import NEEDS
from kb.triage.pace import Circumstances, Judged, Refused, Works, chosen, cold_season, is_sooner, judge

NOVEMBER, JULY = date(2026, 11, 25), date(2026, 7, 8)
NOBODY: frozenset[str] = frozenset()
FINE = Circumstances(NOVEMBER, NOBODY, 8.0, 19.0, Works.YES, Works.YES, True, True, False)
ORDER = list(Pace)

WORKS = st.sampled_from(Works)
KNOWN = st.none() | st.booleans()
DEGREES = st.none() | st.floats(-20, 30)
DAYS = st.dates(date(2026, 1, 1), date(2027, 12, 31))
AROUND = st.builds(
    Circumstances, DAYS, st.none() | st.frozensets(st.sampled_from(sorted(NEEDS))), DEGREES, DEGREES, WORKS, WORKS,
    KNOWN, KNOWN, KNOWN, st.none() | DAYS,
)  # fmt: skip
ENDS = st.sampled_from(Pace)


def at_most(judged: Judged, pace: Pace) -> bool:
    return not is_sooner(pace, judged.pace)


def test_nothing_raises_what_has_no_reason() -> None:
    judged = judge(Pace.ROUTINE, FINE)
    assert (judged.pace, judged.reasons, judged.unasked) == (Pace.ROUTINE, (), ())


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"needs": frozenset({"over-65"})}, "needs more"),
        ({"needs": None}, "Nobody knows yet"),
        ({"outdoor": 0.0}, "freezing"),
        ({"indoor": 15.9}, "under 16"),
        ({"heating": Works.NOT_ASKED, "other_heat": False}, "Nothing else heats"),
        ({"spreading": True}, "spreads"),
        ({"repeat_of": NOVEMBER - timedelta(days=28)}, "within 28 days"),
    ],
)
def test_each_circumstance_is_one_step_with_its_reason(change: dict[str, object], words: str) -> None:
    judged = judge(Pace.ROUTINE, replace(FINE, **change))
    assert judged.pace is Pace.THREE_DAYS
    assert words in judged.reasons[0]


def test_no_other_hot_water_counts_for_somebody_in_need_alone() -> None:
    without = replace(FINE, on=JULY, hot_water=Works.NOT_ASKED, other_hot_water=False)
    assert judge(Pace.ROUTINE, without).pace is Pace.ROUTINE
    assert len(judge(Pace.ROUTINE, replace(without, needs=frozenset({"young-child"}))).reasons) == 2


def test_a_repeat_after_the_twenty_eighth_day_is_none() -> None:
    assert judge(Pace.ROUTINE, replace(FINE, repeat_of=NOVEMBER - timedelta(days=29))).pace is Pace.ROUTINE


def test_from_today_on_it_takes_two_reasons() -> None:
    one = replace(FINE, needs=frozenset({"over-65"}))
    assert judge(Pace.TODAY, one).pace is Pace.TODAY
    assert judge(Pace.TODAY, replace(one, indoor=12.0)).pace is Pace.MAKE_SAFE


def test_a_plainly_unknown_home_is_taken_for_one_in_need() -> None:
    lost = Circumstances(NOVEMBER, heating=Works.NO)
    assert judge(Pace.ROUTINE, lost).pace is Pace.TODAY


# Statute: right to repair, one working day for total or partial loss of heat or hot water, 31 October to 1 May.
@pytest.mark.parametrize("day", [date(2026, 10, 31), NOVEMBER, date(2027, 2, 28), date(2027, 5, 1)])
@pytest.mark.parametrize("lost", [{"heating": Works.NO}, {"heating": Works.PARTLY}, {"hot_water": Works.NO}])
def test_lost_heat_or_hot_water_in_the_cold_season_is_a_working_day(day: date, lost: dict[str, Works]) -> None:
    judged = judge(Pace.ROUTINE, replace(FINE, on=day, other_hot_water=False, **lost))
    assert at_most(judged, Pace.TODAY)
    assert judged.floor is Pace.TODAY


# Statute: the same schedule, three working days from 1 May to 31 October.
@pytest.mark.parametrize("day", [date(2026, 5, 2), JULY, date(2026, 10, 30)])
def test_lost_heat_in_the_warm_season_is_three_days(day: date) -> None:
    assert judge(Pace.ROUTINE, replace(FINE, on=day, heating=Works.NO)).pace is Pace.THREE_DAYS


# A landlord's published policy: hot water lost is no emergency where an immersion heater works.
def test_hot_water_from_an_immersion_heater_is_not_lost() -> None:
    assert judge(Pace.THREE_DAYS, replace(FINE, hot_water=Works.NO, other_hot_water=True)).pace is Pace.THREE_DAYS


# Landlords' published winter policies: the frail without heat, October to March or longer, within 24 hours.
@given(AROUND, ENDS.filter(lambda end: end is not Pace.ADVICE))
def test_without_heat_somebody_frail_waits_a_day_at_most_in_the_cold_season(around: Circumstances, end: Pace) -> None:
    cold = replace(around, heating=Works.NO, needs=frozenset({"over-65"}), on=NOVEMBER)
    assert at_most(judge(end, cold), Pace.TODAY)


# Common practice, from memory of a council's ladder: no heat in frost with somebody frail or an infant is made safe.
@pytest.mark.parametrize("needs", [frozenset({"young-child"}), frozenset({"over-65"}), frozenset({"warmth"}), None])
@pytest.mark.parametrize("degrees", [0.0, -4.0])
def test_no_heat_in_frost_with_somebody_frail_is_made_safe(needs: frozenset[str] | None, degrees: float) -> None:
    judged = judge(Pace.ROUTINE, replace(FINE, heating=Works.NO, outdoor=degrees, needs=needs))
    assert judged.pace is judged.floor is Pace.MAKE_SAFE


@given(AROUND, st.sampled_from([Pace.LEAVE, Pace.MAKE_SAFE]))
def test_what_danger_set_is_never_changed(around: Circumstances, end: Pace) -> None:
    judged = judge(end, around)
    assert judged.pace is end
    assert all(isinstance(chosen(judged, to, "a reason"), Refused) for to in Pace if to is not end)


@given(AROUND)
def test_only_a_repeat_makes_a_visit_of_advice(around: Circumstances) -> None:
    assert (judge(Pace.ADVICE, around).pace is Pace.ROUTINE) == around.repeat


@given(AROUND, ENDS)
def test_it_is_never_slower_than_the_end_says(around: Circumstances, end: Pace) -> None:
    judged = judge(end, around)
    assert at_most(judged, end)
    assert at_most(judged, judged.floor)
    assert (judged.pace is end) or judged.reasons


@given(AROUND, ENDS, st.sampled_from(sorted(NEEDS)))
def test_one_more_need_is_never_slower_and_never_lifts_the_floor(around: Circumstances, end: Pace, need: str) -> None:
    before = judge(end, around)
    if around.needs is not None:
        after = judge(end, replace(around, needs=around.needs | {need}))
        assert at_most(after, before.pace)
        assert at_most(replace(after, pace=after.floor), before.floor)


WORSE = [
    ("needs", None), ("outdoor", -1.0), ("indoor", 10.0), ("other_heat", False), ("other_hot_water", False),
    ("spreading", True), ("heating", Works.NO), ("heating", Works.PARTLY),
]  # fmt: skip


@pytest.mark.parametrize(("circumstance", "worst"), WORSE)
@given(around=AROUND, end=ENDS)
def test_each_circumstance_only_makes_it_sooner(
    circumstance: str, worst: object, around: Circumstances, end: Pace
) -> None:
    before = getattr(around, circumstance)
    if isinstance(worst, float) and before is not None:
        worst = min(worst, before)
    worse = judge(end, replace(around, **{circumstance: worst}))  # type: ignore[arg-type]
    assert at_most(worse, judge(end, around).pace)


@given(AROUND, st.sampled_from([Pace.TODAY, Pace.THREE_DAYS, Pace.ROUTINE]))
def test_a_sooner_end_is_never_slower(around: Circumstances, end: Pace) -> None:
    assert at_most(judge(ORDER[ORDER.index(end) - 1], around), judge(end, around).pace)


@given(AROUND, ENDS, ENDS, st.sampled_from(["", "  ", "they are away"]))
def test_a_handler_raises_freely_and_lowers_with_a_reason_down_to_the_floor(
    around: Circumstances, end: Pace, to: Pace, why: str
) -> None:
    judged = judge(end, around)
    taken = chosen(judged, to, why)
    if isinstance(taken, Pace):
        assert at_most(replace(judged, pace=taken), judged.floor)
        assert why.strip() or at_most(replace(judged, pace=taken), judged.pace)
    elif to is not Pace.LEAVE and judged.pace not in (Pace.LEAVE, Pace.MAKE_SAFE):
        assert is_sooner(judged.pace, to)


def test_what_a_danger_question_set_is_the_slowest_it_may_be() -> None:
    judged = judge(Pace.TODAY, replace(FINE, on=JULY), by_danger=True)
    assert isinstance(chosen(judged, Pace.ROUTINE, "the label is old"), Refused)


def test_the_season_ends_on_the_first_of_may() -> None:
    assert [cold_season(date(2027, *day)) for day in [(5, 1), (5, 2), (10, 30), (10, 31)]] == [True, False, False, True]

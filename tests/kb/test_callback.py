from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kb.article import Call, End, Pace
from kb.callback import (
    PARTS,
    Reach,
    WrongNumber,
    expect,
    number_to_ring,
    offered,
    offers_call,
    reference_of,
)
from kb.firm import Firm
from kb.keys import ALPHABET
from kb.library import load
from tests.builders import firm
from tests.kb.test_firm import read

ARTICLES = Path(__file__).parents[2] / "articles/en"
FIRM = firm(
    hours={day: ["08:00-12:00", "13:00-17:30"] for day in ("mon", "tue", "wed", "thu", "fri")}
    | {"sat": ["09:00-12:00"]}
)


def at(written: str) -> datetime:
    """A moment of November 2026, when London's clocks show UTC."""
    return datetime.fromisoformat(f"2026-11-{written}").replace(tzinfo=UTC)


def expected(firm: Firm, asked: str, pace: Pace = Pace.TODAY, reach: Reach = Reach.ANY) -> str:
    """An expectation in a few signs: its stretches, and whether the firm promised it."""
    found = expect(firm, pace, reach, at(asked))
    if found is None:
        return "never"
    stretches = [found.first, found.then] if found.then else [found.first]
    return " or ".join(f"{begins:%d %H:%M}-{ends:%H:%M}" for begins, ends in stretches) + (
        " promised" if found.promised else ""
    )


@pytest.mark.parametrize(
    ("asked", "when"),
    [
        ("25 09:00", "25 09:00-12:00"),
        ("25 11:30", "25 11:30-12:00 or 25 13:00-17:30"),
        ("25 12:10", "25 13:00-17:30"),
        ("25 17:29", "25 17:29-17:30 or 26 08:00-12:00"),
        ("25 17:30", "26 08:00-12:00"),
        ("25 03:00", "25 08:00-12:00"),
        ("28 11:59", "28 11:59-12:00 or 30 08:00-12:00"),
        ("28 12:00", "30 08:00-12:00"),
    ],
)
def test_a_call_is_to_be_expected_in_the_next_opening_hours(asked: str, when: str) -> None:
    assert expected(FIRM, asked) == when


@pytest.mark.parametrize(
    ("reach", "asked", "when"),
    [
        (Reach.MORNING, "25 09:00", "25 09:00-12:00"),
        (Reach.MORNING, "25 12:00", "26 08:00-12:00"),
        (Reach.AFTERNOON, "25 09:00", "25 13:00-17:00"),
        (Reach.EVENING, "25 09:00", "25 17:00-17:30 or 26 17:00-17:30"),
        (Reach.AFTERNOON, "27 17:00", "30 13:00-17:00"),
    ],
)
def test_it_comes_when_somebody_can_be_reached_and_the_firm_is_open(reach: Reach, asked: str, when: str) -> None:
    assert expected(FIRM, asked, reach=reach) == when


def test_what_can_wait_may_come_in_the_opening_after() -> None:
    assert expected(FIRM, "25 09:00", Pace.ROUTINE) == "25 09:00-12:00 or 25 13:00-17:30"


@pytest.mark.parametrize(
    ("asked", "when"),
    [
        ("25 09:00", "25 09:00-11:00 promised"),
        ("25 11:00", "25 13:00-14:00 promised"),
        ("25 17:00", "26 08:00-09:30 promised"),
        ("28 11:00", "30 08:00-09:00 promised"),
        ("29 11:00", "30 08:00-10:00 promised"),
    ],
)
def test_what_the_firm_promises_counts_its_opening_hours_alone(asked: str, when: str) -> None:
    promising = FIRM.model_copy(update={"answers_within": {Pace.TODAY: 120}})

    assert expected(promising, asked) == when
    assert not expect(promising, Pace.ROUTINE, Reach.ANY, at(asked)).promised  # type: ignore[union-attr]


def test_the_firms_file_says_what_it_promises() -> None:
    assert read(zone='zone = "Europe/London"\nanswers_within = { today = 90, three-days = 600 }').answers_within == {
        Pace.TODAY: 90,
        Pace.THREE_DAYS: 600,
    }


def test_a_firm_that_is_never_open_promises_nothing() -> None:
    assert expected(firm(hours={}), "25 09:00") == "never"
    assert expected(firm(hours={}, answers_within={"today": 60}), "25 09:00") == "never"


def test_more_than_the_next_two_weeks_hold_is_not_promised() -> None:
    seldom = firm(hours={"sat": ["09:00-10:00"]}, answers_within={"today": 600})

    assert not expect(seldom, Pace.TODAY, Reach.ANY, at("25 09:00")).promised  # type: ignore[union-attr]


@given(
    minutes=st.integers(0, 60 * 24 * 365),
    pace=st.sampled_from(Pace),
    reach=st.sampled_from(Reach),
    within=st.none() | st.integers(15, 6000),
)
def test_nothing_outside_the_opening_hours_is_ever_held_out(
    minutes: int, pace: Pace, reach: Reach, within: int | None
) -> None:
    asked = at("25 00:00") + timedelta(minutes=minutes)
    promising = FIRM.model_copy(update={"answers_within": {pace: within} if within else {}})

    found = expect(promising, pace, reach, asked)

    assert found is not None
    for begins, ends in (found.first, found.then or found.first):
        assert asked <= begins.astimezone(UTC) < ends.astimezone(UTC)
        assert promising.is_open(begins)
        assert promising.is_open(ends - timedelta(seconds=1))
        assert PARTS[reach][0] <= begins.hour * 60 + begins.minute < PARTS[reach][1]


def test_across_a_change_of_the_clocks_the_wall_clock_counts() -> None:
    # Outside reference: the IANA time zone database. London's clocks go back on 25 October 2026 at 01:00 UTC.
    night = firm(hours={"sun": ["00:30-03:00"]}, answers_within={"today": 120})

    found = expect(night, Pace.TODAY, Reach.ANY, datetime(2026, 10, 24, 12, tzinfo=UTC))

    assert found is not None
    assert found.first[1].astimezone(UTC) == datetime(2026, 10, 25, 1, 30, tzinfo=UTC)


@pytest.mark.parametrize(
    ("typed", "number"),
    [
        ("01632 960001", "+441632960001"),
        ("(01632) 960-001", "+441632960001"),
        (" 07700 900 001 ", "+447700900001"),
        ("+44 7700 900001", "+447700900001"),
        ("0044 1632 960001", "+441632960001"),
        ("020 7946 0001", "+442079460001"),
        ("+353 1 234 5678", "+35312345678"),
    ],
)
def test_a_number_is_taken_however_it_is_written(typed: str, number: str) -> None:
    # Ofcom keeps these ranges for fiction: they are possible, and never in use.
    assert number_to_ring(typed, FIRM) == number


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("", "Nothing was typed."),
        ("   ", "Nothing was typed."),
        ("999", "We found “999”."),
        ("960001", "We found “960001”."),
        ("01632 96000", "We found “01632 96000”."),
        ("0770 900001", "We found “0770 900001”."),
        ("my old one", "We found “my old one”."),
        ("0800FLOWERS", "We found “0800FLOWERS”."),
        ("07700 900001 x3", "We found “07700 900001 x3”."),
        ("01632 960001 or 01632 960002", "We found “01632 960001 or 01632 96000"),
        ("٠٧٧٠٠ ٩٠٠٠٠١", "We found"),
    ],
)
def test_a_number_that_cannot_be_rung_is_told_with_what_was_expected(typed: str, found: str) -> None:
    wrong = number_to_ring(typed, FIRM)

    assert isinstance(wrong, WrongNumber)
    assert str(wrong).startswith(f"We need a phone number with all its digits. {found}")
    assert wrong.next_step.startswith("Type ")


@pytest.mark.parametrize("typed", ["01632 960123", "+44 7700 900123", "0800 111 999", "01632 960555", "0909 879 0001"])
def test_nobody_is_sent_to_ring_the_firm_an_emergency_line_or_a_dear_number(typed: str) -> None:
    # 09 numbers are premium rate in the United Kingdom (the numbering plan, through phonenumbers).
    assert isinstance(number_to_ring(typed, FIRM, never=["01632 960555"]), WrongNumber)


def test_only_parts_of_the_day_are_offered_in_which_the_firm_is_open() -> None:
    assert offered(FIRM) == tuple(Reach)
    assert offered(firm(hours={"mon": ["08:00-12:00"]})) == (Reach.ANY, Reach.MORNING)
    assert offered(firm(hours={"mon": ["10:00-17:10"]})) == (Reach.ANY, Reach.MORNING, Reach.AFTERNOON)
    assert offered(firm(hours={})) == (Reach.ANY,)


def test_a_reference_is_short_its_own_and_easy_to_say() -> None:
    references = {reference_of(f"{number:032x}") for number in range(500)}

    assert len(references) == 500
    assert all(len(each) == 7 and each[3] == "-" and set(each) <= {*ALPHABET, "-"} for each in references)


def test_no_end_of_danger_offers_a_call_and_every_other_one_does() -> None:
    ends = [part for article in load(ARTICLES).articles.values() for part in article.ends]

    assert {end.title for end in ends if not offers_call(end)} == {
        "Get out: smell of gas",
        "Get out: carbon monoxide",
        "Get out: fire or smoke",
        "Get out: boiling tank or cylinder",
        "Someone is hurt",
    }


def test_an_end_that_names_an_emergency_offers_none_whatever_its_pace() -> None:
    ends: list[End] = [part for article in load(ARTICLES).articles.values() for part in article.ends]
    calm = next(end for end in ends if end.pace is Pace.ADVICE)

    assert offers_call(calm)
    assert not offers_call(replace(calm, emergency="fire"))
    assert not offers_call(replace(calm, call=Call.EMERGENCY))
    assert not offers_call(replace(calm, pace=Pace.LEAVE))

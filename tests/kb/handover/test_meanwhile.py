from dataclasses import replace

import pytest

from kb.handover.meanwhile import bases, differences
from kb.handover.record import Entry, Record, texts
from kb.handover.said import Level
from kb.handover.state import state_of
from tests.kb.handover.records import FORM, KEY, NOON, TODAY


def record(*written: tuple[str, str, str]) -> Record:
    """A record of entries: what each was called, its field, its text."""
    entries = (Entry(id, number, field, text, "Robin", NOON) for number, (id, field, text) in enumerate(written, 1))
    return Record("r1", KEY, NOON, "Robin", tuple(entries))


BEGUN = (
    ("known-fuel", "fuel", "natural-gas"),
    ("known-serial", "serial", "MC-1"),
    ("known-switch-place", "switch-place", "by the door"),
    ("seen-fitted", "seen-fitted", "2009-05-01"),
)
TOLD = {"fuel": "natural-gas", "serial": "MC-1", "switch-place": "by the door", "fitted": "2009-05-01"}


def apart(told: dict[str, str], *more: tuple[str, str, str]) -> list[str]:
    begun = record(*BEGUN, *more)
    state = state_of(FORM, texts(begun.entries), TODAY)
    return [each.field.id for each in differences(state, TOLD | told, bases(begun))]


def test_nothing_is_asked_while_nobody_changed_the_register() -> None:
    assert apart({}) == []
    assert apart({}, ("entry-001", "switch-place", "left of the boiler")) == []


def test_what_the_office_changed_is_told_whether_the_engineer_wrote_there_or_not() -> None:
    assert apart({"switch-place": "in the porch"}) == ["switch-place"]
    assert apart({"switch-place": "in the porch"}, ("entry-001", "switch-place", "loft")) == ["switch-place"]


def test_what_is_new_in_the_register_and_still_open_in_the_record_is_told() -> None:
    assert apart({"gas-valve-place": "at the meter"}) == ["gas-valve-place"]


def test_what_the_office_took_out_is_told() -> None:
    assert apart({"switch-place": ""}) == ["switch-place"]


@pytest.mark.parametrize("register", ["In the porch ", "in the porch"])
def test_two_who_wrote_the_same_are_asked_nothing(register: str) -> None:
    assert apart({"switch-place": register}, ("entry-001", "switch-place", "in the porch")) == []


def test_a_figure_is_the_same_however_it_is_written() -> None:
    assert apart({"aim": "1.2", "low": "0.8"}, ("e-1", "aim", "1.20"), ("e-2", "low", "0,8 bar")) == []


def test_what_was_decided_is_not_asked_again_until_the_register_changes_again() -> None:
    decided = ("entry-002", "seen-switch-place", "in the porch")
    assert apart({"switch-place": "in the porch"}, decided) == []
    assert apart({"switch-place": "in the hall"}, decided) == ["switch-place"]


def test_what_another_appliance_replaces_is_no_change() -> None:
    assert apart({}, ("entry-001", "fitted", "2026-11-25")) == []
    assert apart({"fitted": "2010-01-01"}) == ["fitted"]


def test_what_is_not_asked_of_such_a_home_is_not_told() -> None:
    assert apart({"co-alarm-place": "loft"}) == []
    assert apart({"co-alarm-place": "loft"}, ("entry-001", "co-alarm", "yes")) == ["co-alarm-place"]


def test_the_question_says_both_in_plain_words() -> None:
    begun = record(*BEGUN)
    state = state_of(FORM, texts(begun.entries), TODAY)
    (found,) = differences(state, TOLD | {"fitted": "2010-01-01"}, bases(begun))
    assert found.said.level is Level.QUESTION
    assert "it now says “1 January 2010”, your record says “25 November 2026”" in found.said.text
    assert replace(found, register="").said.text.endswith(
        "it no longer says anything, your record says “25 November 2026”."
    )

from datetime import date

import pytest

from kb.visit.closing import close, due, lacking
from tests.kb.visit.building import NOON, PLAIN, UNSAFE, say


def fields(found) -> list[str]:
    return [each.field for each in found]


def test_a_plain_job_closes_with_eight_answers() -> None:
    said = say(PLAIN)
    assert lacking(said) == ()
    closed = close(said, NOON, "Robin", ("The pump", "The board"))
    assert (closed.cause, closed.outcome, closed.phone, closed.minutes) == ("The pump", "fixed", "no", 45)
    assert (closed.predicted, closed.unsafe, closed.report_by) == (("The pump", "The board"), "", None)


def test_all_that_is_missing_is_told_at_once() -> None:
    assert fields(lacking(say({}))) == ["arrived", "cause", "outcome", "unsafe", "phone", "shown", "card", "left"]


@pytest.mark.parametrize("field", PLAIN)
def test_no_answer_is_taken_for_granted(field: str) -> None:
    assert fields(lacking(say(PLAIN, **{field.replace("-", "_"): ""}))) == [field]


def test_what_was_chosen_asks_for_more() -> None:
    assert fields(lacking(say(PLAIN, cause="other"))) == ["cause-words"]
    assert fields(lacking(say(PLAIN, outcome="waiting"))) == ["part-needed", "not-first"]
    assert fields(lacking(say(PLAIN, phone="yes"))) == ["phone-why"]


def test_something_else_and_no_fault_are_causes_too() -> None:
    other = close(say(PLAIN, cause="other", cause_words="A mouse"), NOON, "Robin")
    assert (other.cause, other.words) == ("Something else", "A mouse")
    assert close(say(PLAIN, cause="none"), NOON, "Robin").cause == "No fault, advice given"


def test_parts_taken_stand_against_parts_used() -> None:
    closed = close(say(PLAIN, parts_taken="pump board", parts_used="pump", part_other="A bolt"), NOON, "Robin")
    assert (closed.taken, closed.used) == (("pump", "board"), ("pump", "A bolt"))


@pytest.mark.parametrize("field", [field for field in UNSAFE if field not in PLAIN or field == "unsafe-found"])
def test_an_unsafe_situation_has_no_silent_default(field: str) -> None:
    assert lacking(say(UNSAFE)) == ()
    assert field in fields(lacking(say(UNSAFE, **{field.replace("-", "_"): ""})))


def test_a_report_is_due_fourteen_days_after_the_day_it_was_found() -> None:
    # RIDDOR 2013, regulation 11(2): within 14 days.
    assert due(say(UNSAFE)) == date(2026, 12, 4)
    assert close(say(UNSAFE), NOON, "Robin").report_by == date(2026, 12, 4)
    assert due(say(UNSAFE, riddor="no")) is None
    assert due(say(UNSAFE, unsafe="no")) is None
    assert due(say(UNSAFE, unsafe_fuel="oil")) is None


def test_immediately_dangerous_and_not_reported_wants_a_reason() -> None:
    assert fields(lacking(say(UNSAFE, riddor="no"))) == ["riddor-why-not"]
    assert lacking(say(UNSAFE, riddor="no", unsafe_class="at-risk")) == ()


def test_immediately_dangerous_and_refused_on_mains_gas_goes_to_the_gas_emergency_service() -> None:
    refused = {**UNSAFE, "permission": "refused", "refusal": "yes"}
    assert fields(lacking(say(refused))) == ["told-gas"]
    assert fields(lacking(say(refused, unsafe_fuel="lpg"))) == ["told-supplier"]
    assert lacking(say(refused, told_gas="10:31, reference 7")) == ()
    assert lacking(say(refused, unsafe_class="at-risk", riddor="no")) == ()
    assert "refusal" in fields(lacking(say(refused, refusal="", told_gas="10:31")))


def test_immediately_dangerous_is_not_merely_turned_off() -> None:
    assert "disconnected or isolated" in lacking(say(UNSAFE, permission="off"))[0].why
    assert lacking(say(UNSAFE, permission="off", unsafe_class="at-risk", riddor="no")) == ()


def test_what_was_left_off_is_not_fixed() -> None:
    assert fields(lacking(say(UNSAFE, outcome="fixed"))) == ["outcome"]
    assert lacking(say(UNSAFE, outcome="fixed", permission="put-right")) == ()


def test_a_label_that_is_missing_wants_a_reason() -> None:
    assert fields(lacking(say(UNSAFE, label="no"))) == ["label-why"]


def test_checks_that_ended_unsafe_are_not_closed_as_safe() -> None:
    (found,) = lacking(say(PLAIN, ended="unsafe-follow-the-procedure"))
    assert found.field == "unsafe"
    assert "checks ended" in found.why
    assert lacking(say(UNSAFE, ended="unsafe-follow-the-procedure")) == ()


def test_what_cannot_be_read_is_told_with_what_to_write() -> None:
    (time,) = lacking(say(PLAIN, arrived="9 o'clock"))
    assert time.why.startswith("Expected")
    (cause,) = lacking(say(PLAIN, cause="the-goblin"))
    assert "The pump" in cause.why
    assert fields(lacking(say(UNSAFE, unsafe_found="2026-11-26"))) == ["unsafe-found"]

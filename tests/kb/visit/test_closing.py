from datetime import date

import pytest

from kb.visit.changing import IN_ORDER
from kb.visit.closing import close, due, lacking
from tests.kb.visit.building import NOON, PLAIN, UNSAFE, say


def fields(found) -> list[str]:
    return [each.field for each in found]


def test_a_plain_job_closes_with_nine_answers() -> None:
    said = say(PLAIN)
    assert lacking(said) == ()
    closed = close(said, NOON, "Robin", ("The pump", "The board"))
    assert (closed.cause, closed.outcome, closed.phone, closed.minutes) == ("The pump", "fixed", "no", 45)
    assert (closed.predicted, closed.unsafe, closed.report_by) == (("The pump", "The board"), "", None)


def test_all_that_is_missing_is_told_at_once() -> None:
    needed = ["arrived", "cause", "outcome", "unsafe", "phone", "shown", "card", "charge", "left"]
    assert fields(lacking(say({}))) == needed


@pytest.mark.parametrize("field", PLAIN)
def test_no_answer_is_taken_for_granted(field: str) -> None:
    assert fields(lacking(say(PLAIN, **{field.replace("-", "_"): ""}))) == [field]


WAITING = ["part-needed", "fetch-who", "fetch-by", "return-when", "not-first"]


def test_what_was_chosen_asks_for_more() -> None:
    assert fields(lacking(say(PLAIN, cause="other"))) == ["cause-words"]
    assert fields(lacking(say(PLAIN, outcome="waiting"))) == WAITING
    assert fields(lacking(say(PLAIN, phone="yes"))) == ["phone-why"]


def test_the_road_and_who_pays_go_with_the_closing() -> None:
    closed = close(say(PLAIN, travel="35 min", charge="plan"), NOON, "Robin")
    assert (closed.travel, closed.charge) == (35, "plan")
    assert close(say(PLAIN), NOON, "Robin").travel is None


def test_a_card_that_must_change_wants_words() -> None:
    assert fields(lacking(say(PLAIN, card="changed"))) == ["card-words"]
    closed = close(say(PLAIN, card="changed", card_words="A new loop"), NOON, "Robin")
    assert (closed.card, closed.card_words) == ("changed", "A new loop")


def test_marks_that_do_not_rise_are_told() -> None:
    changed = {**PLAIN, "card": "changed", "card-words": "new gauge"}
    assert fields(lacking(say(changed, mark_low="1", mark_aim="1.5", mark_high="2"))) == []
    found = lacking(say(changed, mark_low="1.6", mark_aim="1.5", mark_high="2"))
    assert [(each.field, each.why) for each in found] == [("mark-low", IN_ORDER)]
    # A mark that is left out is the home's own: low 0.8, aim 1.2, high 1.8 where nothing is known.
    assert fields(lacking(say(changed, mark_low="1.3"))) == ["mark-low"]


def test_a_job_that_waits_says_who_comes_back_and_not_before_the_part() -> None:
    waits = {**PLAIN, "outcome": "waiting", "part-needed": "pump", "fetch-who": "office", "fetch-by": "2026-11-28",
             "not-first": "part", "return-when": "morning", "return-day": "2026-12-01", "return-who": "me"}  # fmt: skip
    assert lacking(say(waits)) == ()
    assert fields(lacking(say(waits, return_day="2026-11-27"))) == ["return-day"]
    assert fields(lacking(say(waits, return_day="2026-11-24"))) == ["return-day"]
    assert fields(lacking(say(waits, return_when="none"))) == ["return-when"]
    assert fields(lacking(say(waits, return_when="desk", return_day=""))) == []


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

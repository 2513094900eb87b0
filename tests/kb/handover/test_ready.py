import pytest

from kb.handover.ready import readiness
from kb.handover.said import said_of
from tests.kb.handover.records import state

UNSAFE = {
    "range": "marlpit-c", "appliance": "Marlpit C 28", "serial": "0001", "fuel": "natural-gas", "outcome": "unsafe",
    "unsafe-class": "at-risk", "unsafe-why": "No earth.", "unsafe-off": "off", "unsafe-label": "yes",
    "unsafe-notice": "yes", "unsafe-told": "The owner, at noon.",
}  # fmt: skip


def ready(texts=None, checks=(), **changed: str):
    found = state(texts, **changed) if texts else state(**changed)
    return readiness(found, said_of(found, checks))


def test_a_record_with_everything_may_be_signed() -> None:
    found = ready()
    assert found.lacking == ()
    assert found.may_be_signed


@pytest.mark.parametrize("field", ["serial", "charge-bar", "gas-m3", "did", "outcome", "switch-place"])
def test_what_must_be_there_is_named(field: str) -> None:
    found = ready(**{field.replace("-", "_"): ""})
    assert [lack.field for lack in found.lacking] == [field]
    assert not found.may_be_signed


def test_what_cannot_be_read_is_mended_first_even_where_nothing_was_needed() -> None:
    (lack,) = ready(hot_bar="two").lacking
    assert "found “two”" in lack.why


def test_a_figure_that_cannot_be_is_explained_or_mended() -> None:
    found = ready(fuse_a="30")
    assert found.lacking == ()
    assert len(found.unanswered) == 1
    assert ready(fuse_a="30", **{found.unanswered[0].answered_in: "A 30 A fuse."}).unanswered == ()


def test_what_the_card_would_carry_has_to_be_right() -> None:
    assert [lack.field for lack in ready(switch_place="x" * 61).lacking] == ["switch-place"]


def test_marks_that_do_not_rise_are_told() -> None:
    (lack,) = ready(low="1.4", aim="1.2").lacking
    assert "found 1.4, 1.2, 1.8" in lack.why


def test_a_warranty_that_ended_before_it_began_is_told() -> None:
    (lack,) = ready(warranty_ends="2020-01-01").lacking
    assert (lack.field, "2020-01-01" in lack.why) == ("warranty-ends", True)


def test_an_alarm_with_a_day_has_a_place() -> None:
    assert [lack.field for lack in ready(smoke_alarm_ends="2030-01-01").lacking] == ["smoke-alarm-place"]
    assert ready(smoke_alarm_ends="2030-01-01", smoke_alarm_place="hall").lacking == ()
    assert [lack.field for lack in ready(co_alarm_place="").lacking] == ["co-alarm-place"]


def test_a_danger_forbids_to_call_it_fit_whatever_is_explained() -> None:
    found = ready(polarity="no")
    assert len(found.dangers) == 1
    assert not found.may_be_signed


def test_an_unsafe_appliance_is_signed_with_how_it_was_made_safe() -> None:
    assert ready(UNSAFE | {"polarity": "no"}).may_be_signed


@pytest.mark.parametrize("field", [id for id in UNSAFE if id.startswith("unsafe-")])
def test_and_not_without(field: str) -> None:
    assert [lack.field for lack in ready({**UNSAFE, field: ""}).lacking] == [field]


def test_what_follows_from_something_open_is_not_missed_beside_it() -> None:
    assert [lack.field for lack in ready(cold_bar="", at_meter_mbar="").lacking] == ["cold-bar", "at-meter-mbar"]
    # A fill that cannot be leaves no mark to follow, so it is asked for.
    assert [lack.field for lack in ready(cold_bar="12").lacking] == ["aim"]

import pytest

from kb.facts import FACTS, GaugeMarks
from kb.handover.field import Kind
from kb.handover.form import ORDER
from kb.handover.known import STAYS
from kb.home import PLACES
from kb.register import ALARMS
from tests.kb.handover.records import FORM

FIELDS = tuple(FORM.by_id.values())


def test_every_section_is_there_in_the_order_of_the_work() -> None:
    assert tuple(section.id for section in FORM.sections) == ORDER


def test_no_id_is_given_twice() -> None:
    assert len(FORM.by_id) == sum(len(section.fields) for section in FORM.sections)


def test_every_fact_place_and_mark_of_a_home_can_be_learnt() -> None:
    sets = {field.sets for field in FIELDS}
    assert {f"fact:{fact}" for fact in FACTS} <= sets
    assert {f"place:{place}" for place in PLACES} <= sets
    assert {f"mark:{mark}" for mark in GaugeMarks.__slots__} <= sets
    assert {f"home:{name}" for name in ("serial", "fitted", "warranty-ends", "next-service")} <= sets
    assert {"alarm:co.place", "alarm:co.ends", "alarm:smoke.place", "alarm:smoke.ends"} <= sets


def test_what_a_home_keeps_is_asked_for() -> None:
    assert {field.sets for field in FIELDS} >= STAYS


def test_what_is_set_is_something_that_a_home_has() -> None:
    known = {
        "fact": FACTS,
        "place": PLACES,
        "mark": GaugeMarks.__slots__,
        "home": ("range", "appliance", "serial", "fitted", "warranty-ends", "next-service"),
        "alarm": [f"{kind}.{part}" for kind in ALARMS for part in ("place", "ends")],
    }
    for field in FIELDS:
        kind, name = field.target
        assert not field.sets or name in known[kind], field.id


def test_a_field_that_depends_names_choices_that_exist_and_come_first() -> None:
    order = list(FORM.by_id)
    for field in FIELDS:
        for other, values in field.when.items():
            assert set(values) <= set(FORM.by_id[other].options), field.id
            assert order.index(other) < order.index(field.id), field.id


def test_what_is_said_of_an_option_belongs_to_one() -> None:
    for field in FIELDS:
        assert set(field.asks) | set(field.danger) <= set(field.options), field.id


@pytest.mark.parametrize("field", FIELDS, ids=lambda field: field.id)
def test_each_field_has_what_its_kind_wants(field) -> None:
    assert (field.span is not None) is (field.kind is Kind.FIGURE)
    assert bool(field.options) is (field.kind in (Kind.CHOICE, Kind.TICKS, Kind.YES_NO))


def test_a_range_that_the_firm_has_no_file_for_can_be_chosen() -> None:
    assert list(FORM.by_id["range"].options) == ["marlpit-c", "other"]

from dataclasses import replace
from datetime import date

import pytest

from kb.facts import Known
from kb.home import Home
from kb.register import Alarm, Appliance, Need, Person, Record, changed, home_in, mistakes_in
from tests.registers import TODAY, record


def fields(wrong: Record) -> list[str]:
    return [mistake.field for mistake in mistakes_in(wrong, TODAY)]


def test_a_whole_record_has_no_mistake():
    assert mistakes_in(record(), TODAY) == ()


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"key": "nonsense"}, "key"),
        ({"known": Known({"colour": "red"})}, "facts"),
        ({"known": Known({"system": "red"})}, "facts.system"),
        ({"places": {"attic": "up"}}, "places"),
        ({"places": {"stop-tap": " "}}, "places.stop-tap"),
        ({"address": replace(record().address, lines=())}, "address.lines"),
        ({"address": replace(record().address, town="two\nlines")}, "address.town"),
        ({"people": (Person("", "lives-here"),)}, "people[0].name"),
        ({"people": (Person("x" * 201, "lives-here"),)}, "people[0].name"),
        ({"people": (Person("A\0", "lives-here"),)}, "people[0].name"),
        ({"people": (Person("A", "aunt"),)}, "people[0].role"),
        ({"people": (Person("A"), Person("B", phones=("+441632960001", "01632 960002")))}, "people[1].phones[1]"),
        ({"people": (Person("A", needs=(Need("asthma", TODAY),)),)}, "people[0].needs[0].kind"),
        ({"people": (Person("A", needs=(Need("power", date(2027, 1, 1)),)),)}, "people[0].needs[0].consented"),
        ({"people": (Person("A", needs=(Need("power", TODAY, date(2020, 1, 1)),)),)}, "people[0].needs[0].reviewed"),
        ({"people": (Person("A", needs=(Need("power", TODAY), Need("power", TODAY))),)}, "people[0].needs"),
        ({"appliances": ()}, "appliances"),
        ({"appliances": (Appliance(""),)}, "appliances[0].plate"),
        ({"appliances": (Appliance("A", fuel="peat"),)}, "appliances[0].fuel"),
        ({"appliances": (Appliance("A", kind="toaster"),)}, "appliances[0].kind"),
        (
            {"appliances": (Appliance("A", fitted=TODAY, warranty_ends=date(2020, 1, 1)),)},
            "appliances[0].warranty_ends",
        ),
        ({"alarms": (Alarm("burglar", "hall"),)}, "alarms[0].kind"),
    ],
)
def test_a_mistake_names_its_field(change, field):
    assert fields(replace(record(), **change)) == [field]


def test_all_mistakes_are_told_at_once():
    wrong = replace(record(), key="", people=(Person(""),), alarms=(Alarm("", ""),))
    assert fields(wrong) == ["key", "people[0].name", "alarms[0].kind", "alarms[0].place"]


def test_what_a_key_opens_says_nothing_about_people():
    opened = home_in(record())
    assert isinstance(opened, Home)
    assert not any(secret in str(opened) for secret in ("Whitfield", "Mill Lane", "ZZ99", "960"))


def test_a_change_is_told_by_the_names_of_its_fields_alone():
    before = replace(record(), people=(replace(record().people[0], id=1),))
    after = replace(before, places={}, people=(replace(before.people[0], name="Anna Marsh"),))
    assert changed(before, after) == ("places", "people.name")
    assert changed(before, before) == ()


def test_somebody_new_or_gone_is_a_change_of_the_people():
    before = replace(record(), people=(replace(record().people[0], id=1),))
    assert changed(before, replace(before, people=())) == ("people",)
    assert changed(before, replace(before, people=(*before.people, Person("B")))) == ("people",)

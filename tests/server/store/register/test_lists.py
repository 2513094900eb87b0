"""Many homes at once, on both databases."""

import re
from dataclasses import replace
from datetime import date

import pytest

from kb.listing import listing, read_listing
from kb.register import Alarm, Appliance, Need, Person
from server.store import StoreUnavailable
from server.store.register import Did
from tests.listings import generated
from tests.registers import FIRST, SECOND, TODAY, put_over, record
from tests.server.store.building import home, tamper

WHO = "office.jo"


@pytest.fixture
def lists(store):
    return store.lists


def exported(lists):
    return "".join(listing(lists.every(WHO), "GB"))


def taken(lists, text, **more):
    read = read_listing(text)
    assert read.problems == ()
    return lists.take(read.rows, "GB", TODAY, WHO, **more)


def counts(taken):
    return taken.new, taken.changed, taken.same, len(taken.problems)


def test_a_table_is_taken_in_and_written_out_and_taken_in_again_alike(store, lists, address):
    assert counts(taken(lists, generated(1203))) == (1203, 0, 0, 0)
    first = exported(lists)
    assert counts(taken(lists, first)) == (0, 0, 1203, 0)
    assert exported(lists) == first
    assert len(store.homes()) == 1203


def test_a_table_makes_homes_with_the_keys_that_it_gives(store, lists):
    store.register.put(record(), WHO)
    head, first = exported(lists).splitlines()
    second = first.replace(FIRST, SECOND)
    assert counts(taken(lists, f"{head}\r\n{second}\r\n")) == (1, 0, 0, 0)
    assert exported(lists).splitlines() == [head, first, second]


def test_a_dry_run_writes_nothing(store, lists):
    assert counts(taken(lists, generated(3), dry_run=True)) == (3, 0, 0, 0)
    assert store.homes() == ()


def test_one_wrong_line_keeps_them_all_out(store, lists):
    text = generated(1002).replace("1001 ", "x" * 201 + " ").replace("07700 900007", "07700")
    result = taken(lists, text)
    assert [(each.row, each.column) for each in result.problems] == [(9, "Person 1 phone 1"), (1002, "Address 1")]
    assert store.homes() == ()


def test_what_fails_half_way_leaves_nothing_behind(store, lists, address):
    tamper(address, "ALTER TABLE alarms RENAME TO gone")
    with pytest.raises(StoreUnavailable):
        taken(lists, generated(700))
    assert store.homes() == ()


def test_a_line_with_a_key_changes_that_home_and_leaves_what_has_no_column(store, lists):
    store.register.put(record(), WHO)
    before = store.register.read(FIRST, WHO)
    assert counts(taken(lists, f"Key,Town\n{FIRST},Wickenthorpe\n")) == (0, 1, 0, 0)
    after = store.register.read(FIRST, WHO)
    assert after == replace(before, address=replace(before.address, town="Wickenthorpe"))


def test_a_table_overwrites_nothing_that_was_changed_since_it_was_written(store, lists):
    store.register.put(record(), WHO)
    store.register.put(record(SECOND), WHO)
    table = exported(lists).replace("14 Mill Lane", "15 Mill Lane")
    seen = store.register.read(FIRST, WHO)
    put_over(store.register, replace(seen, places={"switch": "in the loft"}), "office.kim")
    told = taken(lists, table)
    assert [(each.row, each.column) for each in told.problems] == [(2, "Version")]
    assert store.register.read(FIRST, WHO).places == {"switch": "in the loft"}
    assert "14 Mill Lane" in store.register.read(SECOND, WHO).address.lines
    emptied = re.sub(r"v-[0-9a-f]{12}", "", table)
    assert counts(taken(lists, emptied)) == (0, 2, 0, 0)
    assert store.register.read(FIRST, WHO).places == record().places


def test_a_table_that_was_taken_in_may_be_taken_in_again(store, lists):
    store.register.put(record(), WHO)
    table = exported(lists).replace("14 Mill Lane", "15 Mill Lane")
    assert counts(taken(lists, table)) == (0, 1, 0, 0)
    assert counts(taken(lists, table)) == (0, 0, 1, 0)


def test_people_keep_their_numbers_through_a_table(store, lists):
    store.register.put(record(), WHO)
    before = store.register.read(FIRST, WHO)
    text = exported(lists).replace("01632 960123", "01632 960999").replace("Bram Oakes", "Cleo Dunn")
    assert counts(taken(lists, text)) == (0, 1, 0, 0)
    anna, cleo = store.register.read(FIRST, WHO).people
    assert (anna.id, anna.phones[0]) == (before.people[0].id, "+441632960999")
    assert (cleo.name, cleo.id in {person.id for person in before.people}) == ("Cleo Dunn", False)


def test_a_withdrawn_key_is_refused_by_its_row(store, lists):
    store.register.put(record(), WHO)
    store.register.replace_key(FIRST, WHO)
    result = taken(lists, f"Key,Appliance 1 plate\n{SECOND},C 28\n{FIRST},C 28\n")
    assert [(each.row, each.column) for each in result.problems] == [(3, "Key")]


def test_the_trail_of_each_home_tells_which_fields_and_no_values(store, lists):
    store.register.put(record(), WHO)
    taken(lists, f"Key,Town\n{FIRST},Wickenthorpe\n")
    exported(lists)
    trail = store.register.trail(FIRST)
    assert [(entry.did, entry.by) for entry in trail] == [(Did.CHANGED, WHO), (Did.CHANGED, WHO), (Did.READ, WHO)]
    assert trail[1].fields == ("address",)


def test_how_far_it_came_is_told_to_the_end(lists):
    told = []
    taken(lists, generated(1203), tell=told.append)
    assert sum(told) == 2 * 1203
    again = []
    taken(lists, exported(lists), dry_run=True, tell=again.append)
    assert sum(again) == 2 * 1203


def test_homes_are_shown_again_by_their_keys_in_their_order(store, lists):
    store.register.put(record(), WHO)
    store.register.put(record(SECOND, Person("Cleo Dunn")), WHO)
    assert [(hit.key, hit.names) for hit in lists.hits([SECOND, "nonsense", FIRST], WHO)] == [
        (SECOND, ("Cleo Dunn",)),
        (FIRST, ("Anna Whitfield", "Bram Oakes")),
    ]
    assert store.register.trail(SECOND)[-1].did is Did.FOUND


def due(lists, first, end):
    return [(each.kind, each.key, each.day, each.what) for each in lists.due(first, end, WHO)]


def test_what_falls_due_is_told_by_kind_and_day(store, lists):
    needs = (Need("power", date(2025, 11, 10)), Need("warmth", date(2025, 11, 12), date(2026, 3, 1)))
    appliances = (
        Appliance("C 28", warranty_ends=date(2026, 11, 30), next_service=date(2026, 11, 2)),
        Appliance("Fire", next_service=date(2026, 11, 1)),
    )
    alarms = (Alarm("co", "hall", date(2026, 11, 3)), Alarm("smoke", "hall", date(2026, 12, 1)))
    put = replace(record(FIRST, Person("Anna", needs=needs)), appliances=appliances, alarms=alarms)
    assert store.register.put(put, WHO) == ()
    assert due(lists, date(2026, 11, 1), date(2026, 12, 1)) == [
        ("service", FIRST, date(2026, 11, 1), "Fire"),
        ("service", FIRST, date(2026, 11, 2), "C 28"),
        ("alarm", FIRST, date(2026, 11, 3), "carbon monoxide alarm, hall"),
        ("warranty", FIRST, date(2026, 11, 30), "C 28"),
        ("review", FIRST, date(2026, 11, 10), "needs power for equipment"),
        ("consent", FIRST, date(2026, 11, 12), "must not be without heating for long"),
    ]
    assert store.register.trail(FIRST)[-1].fields == ("address", "people.needs")


def test_a_withdrawn_home_is_not_due_and_one_that_was_put_alone_is(store, lists):
    store.put(replace(home(), next_service=date(2026, 11, 2)))
    assert [each.what for each in lists.due(date(2026, 11, 1), date(2026, 12, 1), WHO)] == ["Any 20"]
    store.revoke(FIRST)
    assert lists.due(date(2026, 11, 1), date(2026, 12, 1), WHO) == ()


def test_dates_for_a_calendar_have_nothing_about_people(store, lists):
    store.register.put(record(), WHO)
    found = lists.dates(date(2025, 1, 1), date(2032, 1, 1))
    assert {each.kind for each in found} == {"service", "alarm", "warranty"}
    assert {each.person for each in found} == {None}
    assert lists.key_of(found[0].home) == FIRST
    assert lists.key_of(0) is None

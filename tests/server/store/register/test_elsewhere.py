"""A key and a person stand in other tables than the register's own, and nothing is forgotten there."""

from dataclasses import replace
from datetime import UTC, date, datetime

import pytest

from kb.appointment import Appointment, Window, said
from kb.article import Pace
from kb.callback import Reach
from kb.desk.events import Did, Event
from kb.handover import seal
from kb.handover.record import Record as Handover
from kb.handover.record import Signature
from kb.visit.job import Job
from server.store.register.elsewhere import KEYED
from server.store.requests import Asked
from server.store.tables import METADATA
from tests.registers import FIRST, record

NOW = datetime(2026, 11, 25, 9, tzinfo=UTC)
WHO = "office.kim"


@pytest.fixture
def register(store):
    store.register.put(record(), "desk.jo")
    return store.register


def called(store, id: str = "a call", closed: bool = True) -> None:
    said = [(Did.HOME, {"key": FIRST}), (Did.CALLER, {"name": "Anna"}), (Did.WORDS, {"words": "it drips"})]
    said += [(Did.CLOSED, {"how": "booked"})] if closed else []
    store.calls.begin(id, "Wren", NOW)
    store.calls.add(id, *(Event(f"{id} {did}", NOW, "Wren", did, words) for did, words in said))


def heard(store, id: str = "a call") -> str:
    return str([event.said for event in store.calls.call(id).events])


def anna(register) -> int:
    return next(each.id for each in register.read(FIRST, WHO).people if each.name == "Anna Whitfield")


def test_the_calls_of_a_home_are_found_by_its_new_key(store, register):
    called(store)
    new = register.replace_key(FIRST, WHO)
    assert [each.id for each in store.calls.of_home(new, NOW)] == ["a call"]
    assert store.calls.of_home(FIRST, NOW) == ()


def test_a_signed_record_is_unaltered_by_a_new_key(store, register):
    store.handovers.begin(Handover("a record", FIRST, NOW, "Wren"))
    seen = seal.of_entries(store.handovers.record("a record"))
    store.handovers.sign("a record", Signature("W. Ashby", "Wren", NOW), seen)
    new = register.replace_key(FIRST, WHO)
    newer = register.replace_key(new, WHO)
    record = store.handovers.record("a record")
    assert (record.key, record.first_key) == (newer, FIRST)
    assert seal.is_unaltered(record)
    assert [each.id for each in store.handovers.of_home(newer)] == ["a record"]


def test_every_column_that_names_a_home_by_its_key_follows():
    elsewhere = {
        f"{table.name}.{column.name}"
        for table in METADATA.tables.values()
        for column in table.columns
        if column.name in ("key", "home") and getattr(column.type, "length", None) == 17 and table.name != "homes"
    }
    assert elsewhere == {f"{column.table.name}.{column.name}" for column in KEYED}


def test_what_somebody_said_on_the_phone_is_erased_with_them(store, register):
    called(store)
    register.erase(anna(register), WHO)
    assert "Anna" not in heard(store)
    assert "drips" not in heard(store)
    assert "booked" in heard(store)


def test_a_call_that_is_open_keeps_its_words(store, register):
    called(store, closed=False)
    register.erase(anna(register), WHO)
    assert "drips" in heard(store)


def test_a_request_to_ring_somebody_is_erased_with_them(store, register):
    number = next(each for each in register.read(FIRST, WHO).people if each.name == "Anna Whitfield").phones[0]
    for sent, phone in (("one", number), ("two", "+447700900999")):
        store.requests.put(Asked(sent, "", phone, Reach.ANY, Pace.TODAY, None), ["mail"], "an address", NOW)
    register.erase(anna(register), WHO)
    assert [each.asked.phone for each in store.requests.waiting(WHO)] == ["+447700900999"]


def test_why_a_visit_is_later_is_erased_with_them_and_the_visit_stays(store, register):
    called(store)
    later = Appointment(Window(date(2026, 12, 1), 480, 720), "Robin", "Anna is in hospital", NOW, "Wren", NOW)
    store.calls.add("a call", Event("agreed", NOW, "Wren", Did.BOOKED, said(later)))
    store.jobs.begin(Job("a job", "noise", NOW, "Robin", FIRST))
    store.appointments.move("j-a job", later, "moved")
    register.erase(anna(register), WHO)
    assert "hospital" not in heard(store)
    agreed = {each.id: each.agreed for each in store.appointments.to_visit()}
    assert agreed == {"c-a call": replace(later, why=""), "j-a job": replace(later, why="")}

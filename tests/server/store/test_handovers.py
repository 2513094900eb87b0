from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from kb.handover import seal
from kb.handover.record import Addition, Entry, Record, Signature
from kb.handover.record import texts as latest
from kb.register import Appliance, Person
from kb.register import Record as Registered
from server.store import Revoked, Store
from server.store.handovers import Changed, NoSuchRecord, SignedAlready
from tests.server.store.building import FIRST, SECOND, home, tamper

NOON = datetime(2026, 11, 25, 12, 0, 0, 123456, tzinfo=UTC)
RECORD = Record("record-1", FIRST, NOON, "Robin")
SIGNATURE = Signature("R. Thorne", "Robin", NOON)


def entry(number: int, text: str = "1.2", field: str = "cold-bar", **changes: object) -> Entry:
    return replace(Entry(f"entry-{number:04}", number, field, text, "Robin", NOON), **changes)


@pytest.fixture
def handovers(store: Store):
    store.handovers.begin(RECORD)
    return store.handovers


def sign(handovers, learn=None, **changes: object) -> Signature:
    seen = seal.of_entries(handovers.record("record-1"))
    return handovers.sign("record-1", replace(SIGNATURE, **changes), seen, learn)


def learns(before: Registered | None) -> Registered:
    """What a signed record would make of a home: another plate and serial number, the rest as it is."""
    old = before or Registered(FIRST, (Appliance("Any 20"),))
    return replace(old, appliances=(Appliance("Marlpit C 28", "marlpit-c", serial="SN 1"),))


def test_a_record_is_what_was_begun_with_what_was_known_first(store):
    begun = replace(RECORD, entries=(entry(1), entry(2, "2", "pump")))
    store.handovers.begin(begun)
    assert store.handovers.record("record-1") == begun
    assert store.handovers.record("another") is None


def test_every_entry_is_kept_and_the_latest_counts(handovers):
    assert handovers.save("record-1", entry(1, "1.0"))
    assert handovers.save("record-1", entry(2, "1.4 bar – “cold”"))
    kept = handovers.record("record-1")
    assert [each.text for each in kept.entries] == ["1.0", "1.4 bar – “cold”"]
    assert latest(kept.entries) == {"cold-bar": "1.4 bar – “cold”"}


def test_an_entry_that_is_sent_twice_is_kept_once(handovers):
    assert handovers.save("record-1", entry(1))
    assert not handovers.save("record-1", entry(1))
    assert len(handovers.record("record-1").entries) == 1


def test_an_entry_that_is_sent_many_times_at_once_is_kept_once(handovers):
    with ThreadPoolExecutor(4) as four:
        new = list(four.map(lambda _: handovers.save("record-1", entry(1)), range(8)))
    assert new.count(True) == 1


def test_entries_count_in_the_order_they_were_written_not_the_one_they_came_in(handovers):
    handovers.save("record-1", entry(9, "later"))
    handovers.save("record-1", entry(4, "earlier"))
    assert latest(handovers.record("record-1").entries) == {"cold-bar": "later"}


def test_an_entry_of_no_record_is_refused(handovers):
    with pytest.raises(NoSuchRecord):
        handovers.save("another", entry(1))


def test_what_one_process_wrote_another_reads(handovers, address):
    handovers.save("record-1", entry(1))
    with Store(address) as other:
        assert other.handovers.record("record-1") == handovers.record("record-1")
        assert not other.handovers.save("record-1", entry(1))


def test_open_records_are_those_of_who_began_them_the_newest_first(handovers):
    handovers.begin(replace(RECORD, id="record-2", begun=NOON + timedelta(hours=1)))
    handovers.begin(replace(RECORD, id="record-3", by="Wren"))
    assert [each.id for each in handovers.open_by("Robin")] == ["record-2", "record-1"]
    sign(handovers)
    assert [each.id for each in handovers.open_by("Robin")] == ["record-2"]


def test_a_homes_records_are_found_by_its_key(handovers):
    handovers.begin(replace(RECORD, id="record-2", key=SECOND))
    assert [each.id for each in handovers.of_home(FIRST)] == ["record-1"]


def test_a_signed_record_is_sealed_and_the_home_knows_at_once(handovers, store):
    handovers.save("record-1", entry(1))
    signed = sign(handovers, learns)
    kept = handovers.record("record-1")
    assert kept.signature == signed
    assert seal.is_unaltered(kept)
    assert (store.home(FIRST).appliance, store.home(FIRST).range) == ("Marlpit C 28", "marlpit-c")


def test_the_register_learns_the_serial_number_keeps_the_people_and_notes_who_signed(handovers, store):
    people = (Person("Any Body", "lives-here", ("+441632960001",)),)
    known = Registered(FIRST, (Appliance("Any 20", "any"),), home().known, home().places, people=people)
    assert store.register.put(known, "Wren") == ()
    sign(handovers, learns)
    record = store.register.read(FIRST, "Wren")
    assert (record.appliances[0].serial, record.appliances[0].plate) == ("SN 1", "Marlpit C 28")
    assert [each.name for each in record.people] == ["Any Body"]
    trace = [each for each in store.register.trail(FIRST) if each.by == "Robin"]
    assert [each.fields for each in trace] == [("appliances",)]


def test_a_home_whose_key_was_withdrawn_meanwhile_stays_closed(handovers, store):
    store.put(home())
    store.revoke(FIRST, NOON.date())
    sign(handovers, learns)
    assert store.home(FIRST) == Revoked(FIRST, NOON.date())


def test_a_signed_record_takes_no_entry_and_no_second_signature(handovers):
    handovers.save("record-1", entry(1))
    sign(handovers)
    with pytest.raises(SignedAlready):
        handovers.save("record-1", entry(2))
    with pytest.raises(SignedAlready):
        sign(handovers, name="Somebody else")
    assert handovers.record("record-1").signature.name == "R. Thorne"


def test_an_entry_from_before_the_signing_that_is_sent_again_is_no_news(handovers):
    handovers.save("record-1", entry(1))
    sign(handovers)
    assert not handovers.save("record-1", entry(1))


def test_nobody_signs_what_they_have_not_seen(handovers, store):
    seen = seal.of_entries(handovers.record("record-1"))
    handovers.save("record-1", entry(1))
    with pytest.raises(Changed):
        handovers.sign("record-1", SIGNATURE, seen, learns)
    assert handovers.record("record-1").signature is None
    assert store.home(FIRST) is None


def test_a_home_that_changed_at_the_last_moment_leaves_the_record_unsigned(handovers, store):
    store.put(home())

    def refuses(before: Registered | None) -> Registered:
        raise Changed

    with pytest.raises(Changed):
        sign(handovers, refuses)
    assert handovers.record("record-1").signature is None
    assert store.home(FIRST) == home()


def test_a_record_teaches_the_home_as_it_is_when_it_is_signed(handovers, store):
    people = (Person("Any Body", "lives-here", ("+441632960001",)),)
    store.register.put(Registered(FIRST, (Appliance("Any 20", "any"),), people=people), "Wren")
    heard: list[Registered | None] = []
    sign(handovers, lambda before: heard.append(before) or learns(before))
    assert [each.people[0].name for each in heard] == ["Any Body"]


def test_of_two_who_sign_at_once_one_does_and_no_entry_slips_in_behind(handovers):
    def save(number: int) -> bool:
        try:
            return handovers.save("record-1", entry(number))
        except SignedAlready:
            return False

    def try_to_sign(name: str) -> bool:
        try:
            sign(handovers, name=name)
        except (SignedAlready, Changed):
            return False
        return True

    with ThreadPoolExecutor(8) as eight:
        saved = [eight.submit(save, number) for number in range(1, 9)]
        signed = [eight.submit(try_to_sign, name) for name in ("R. Thorne", "W. Ashby")]
    kept = handovers.record("record-1")
    assert sum(each.result() for each in signed) == (1 if kept.signature else 0)
    assert sum(each.result() for each in saved) == len(kept.entries)
    assert seal.is_unaltered(kept)


def test_words_are_added_to_a_signed_record_once_and_it_stays_as_it_was(handovers):
    sign(handovers)
    first, second = (Addition(f"addition-{n}", f"Words {n}.", "Wren", NOON) for n in (1, 2))
    assert handovers.add("record-1", first)
    assert not handovers.add("record-1", first)
    assert handovers.add("record-1", second)
    kept = handovers.record("record-1")
    assert [each.words for each in kept.additions] == ["Words 1.", "Words 2."]
    assert seal.is_unaltered(kept)


def test_nothing_is_added_to_a_record_that_can_still_be_written(handovers):
    with pytest.raises(NoSuchRecord):
        handovers.add("record-1", Addition("addition-1", "Words.", "Wren", NOON))


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE handover_entries SET text = '2.4'",
        "DELETE FROM handover_entries WHERE sequence = 1",
        "UPDATE handovers SET signed_name = 'W. Ashby'",
        "UPDATE handover_additions SET words = 'Nothing.'",
    ],
)
def test_what_is_altered_behind_the_programs_back_is_noticed(handovers, address, statement):
    handovers.save("record-1", entry(1))
    handovers.save("record-1", entry(2, "2", "pump"))
    sign(handovers)
    handovers.add("record-1", Addition("addition-1", "Words.", "Wren", NOON))
    tamper(address, statement)
    assert not seal.is_unaltered(handovers.record("record-1"))

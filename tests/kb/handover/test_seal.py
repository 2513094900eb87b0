from dataclasses import replace
from datetime import timedelta, timezone

import pytest

from kb.handover import seal
from kb.handover.record import Entry, Record
from tests.kb.handover.records import ADDITION, NOON, SIGNATURE, record


def signed() -> Record:
    plain = record()
    closed = replace(SIGNATURE, fingerprint=seal.of_signature(seal.of_entries(plain), SIGNATURE))
    added = replace(ADDITION, fingerprint=seal.of_addition(closed.fingerprint, ADDITION))
    return replace(plain, signature=closed, additions=(added,))


def test_a_signed_record_is_what_was_signed_and_an_addition_leaves_it_so() -> None:
    whole = signed()
    assert seal.is_unaltered(whole)
    assert seal.is_unaltered(replace(whole, additions=()))
    assert seal.last(whole) == whole.additions[0].fingerprint


def changed_entry(found: Record, **changes: object) -> Record:
    first, *others = found.entries
    return replace(found, entries=(replace(first, **changes), *others))


@pytest.mark.parametrize(
    "change",
    [
        {"text": "sedgebrook"},
        {"field": "fuel"},
        {"by": "Wren"},
        {"at": NOON + timedelta(microseconds=1)},
        {"sequence": 99},
        {"id": "another-1"},
    ],
)
def test_any_change_of_an_entry_is_found(change: dict[str, object]) -> None:
    assert not seal.is_unaltered(changed_entry(signed(), **change))


@pytest.mark.parametrize(
    "change",
    [
        lambda whole: replace(whole, entries=whole.entries[1:]),
        lambda whole: replace(whole, entries=(whole.entries[1], whole.entries[0], *whole.entries[2:])),
        lambda whole: replace(whole, entries=(*whole.entries, Entry("late-one", 999, "pump", "3", "Robin", NOON))),
        lambda whole: replace(whole, signature=replace(whole.signature, name="W. Ashby")),
        lambda whole: replace(whole, key="W2WHP-4JH9T-DUQAM"),
        lambda whole: replace(whole, additions=(replace(whole.additions[0], words="No cap."),)),
    ],
    ids=["one removed", "two swapped", "one put in", "another name", "another home", "another addition"],
)
def test_so_is_any_other(change) -> None:
    assert not seal.is_unaltered(change(signed()))


def test_the_zone_a_moment_is_told_in_makes_no_difference() -> None:
    elsewhere = NOON.astimezone(timezone(timedelta(hours=2)))
    assert seal.is_unaltered(changed_entry(signed(), at=elsewhere))


def test_an_unsigned_record_claims_nothing() -> None:
    assert seal.is_unaltered(record())

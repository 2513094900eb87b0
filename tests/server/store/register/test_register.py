from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import date
from traceback import format_exception

import pytest
from sqlalchemy import text

from kb.register import MEANWHILE, Alarm, Built, Person, understand
from server.store import Revoked, StoreUnavailable
from server.store.register import Did, Printed
from tests.registers import FIRST, SECOND, TODAY, anna, put_over, record
from tests.server.store.building import behind, home, tamper

WHO = "desk.jo"


@pytest.fixture
def register(store):
    return store.register


def numbered(given):
    """A record as it comes back, but with nobody numbered."""
    return replace(given, people=tuple(replace(person, id=None) for person in given.people))


def test_a_record_comes_back_as_it_was_put(register):
    assert register.put(record(), WHO) == ()
    assert numbered(register.read(FIRST, WHO)) == record()


def test_a_record_with_a_mistake_is_not_written_at_all(register):
    wrong = register.put(replace(record(), people=(Person(""),)), WHO)
    assert [mistake.field for mistake in wrong] == ["people[0].name"]
    assert register.read(FIRST, WHO) is None


def test_what_a_key_opens_comes_from_the_same_record(store, register):
    register.put(record(), WHO)
    opened = store.home(FIRST)
    assert (opened.appliance, opened.range, opened.next_service) == ("Marlpit C 28", "marlpit-c", date(2026, 10, 4))


def test_a_home_that_was_put_alone_has_a_record_without_people(store, register):
    store.put(home())
    read = register.read(FIRST, WHO)
    assert (read.people, read.address, read.appliances[0].plate) == ((), None, "Any 20")


def test_a_home_that_was_put_again_is_told_the_same_in_its_record(store, register):
    register.put(record(), WHO)
    store.put(home(appliance="Another 30"))
    first = register.read(FIRST, WHO).appliances[0]
    assert (first.plate, first.serial) == ("Another 30", "MC-000123")


def test_what_stands_in_a_home_is_told_without_people_and_leaves_no_trace(register):
    register.put(record(), WHO)
    assert register.things(FIRST) == replace(record(), people=(), address=None)
    assert [entry.did for entry in register.trail(FIRST)] == [Did.CHANGED]


@pytest.mark.parametrize("key", [SECOND, "nonsense", FIRST])
def test_a_key_that_opens_no_home_tells_nothing_of_what_stands_there(register, key):
    register.put(record(), WHO)
    register.replace_key(FIRST, WHO)
    assert register.things(key) is None


def test_of_two_who_read_and_write_a_home_the_second_is_told(register):
    register.put(record(), WHO)
    first = second = register.read(FIRST, WHO)
    assert register.put(replace(first, places={"switch": "in the loft"}), WHO, first) == ()
    assert register.put(replace(second, alarms=()), WHO, second) == (MEANWHILE,)
    after = register.read(FIRST, WHO)
    assert (after.places, after.alarms) == ({"switch": "in the loft"}, record().alarms)
    assert register.put(replace(after, alarms=()), WHO, after) == ()


def test_a_home_that_is_there_is_not_written_over_as_if_it_were_new(register):
    register.put(record(), WHO)
    assert register.put(replace(record(), places={}), WHO) == (MEANWHILE,)
    assert register.things(FIRST).places == record().places


def test_of_many_who_write_one_home_at_once_each_is_kept_or_told(register):
    register.put(replace(record(), alarms=()), WHO)

    def hang(number: int) -> bool:
        seen = register.read(FIRST, WHO)
        more = replace(seen, alarms=(*seen.alarms, Alarm("smoke", f"room {number}")))
        return register.put(more, WHO, seen) == ()

    with ThreadPoolExecutor(4) as four:
        kept = list(four.map(hang, range(12)))
    assert any(kept)
    assert {alarm.place for alarm in register.things(FIRST).alarms} == {
        f"room {n}" for n, good in enumerate(kept) if good
    }


def test_people_keep_their_numbers_through_a_change(register):
    register.put(record(), WHO)
    before = register.read(FIRST, WHO)
    moved = replace(before, people=(replace(before.people[1], phones=()), Person("Cleo Dunn")))
    register.put(moved, WHO, before)
    after = register.read(FIRST, WHO)
    assert [person.name for person in after.people] == ["Bram Oakes", "Cleo Dunn"]
    assert after.people[0].id == before.people[1].id
    assert after.people[1].id > before.people[1].id


def test_a_number_is_never_given_to_another_person(register):
    register.put(record(), WHO)
    last = register.read(FIRST, WHO).people[-1].id
    register.erase(last, WHO)
    register.put(record(SECOND, anna()), WHO)
    assert register.read(SECOND, WHO).people[0].id > last


def test_a_person_of_another_home_is_not_moved_by_their_number(register):
    register.put(record(), WHO)
    register.put(record(SECOND, *register.read(FIRST, WHO).people), WHO)
    assert len(register.read(FIRST, WHO).people) == len(register.read(SECOND, WHO).people) == 2


def test_every_read_and_change_is_in_the_trail_by_fields_and_without_values(register, address):
    register.put(record(), WHO)
    register.read(FIRST, "office.kim")
    seen = register.read(FIRST, "office.kim")
    register.put(replace(seen, places={}), "engineer.li", seen)
    register.put(replace(seen, places={}), "engineer.li", replace(seen, places={}))
    trail = register.trail(FIRST)
    assert [(entry.by, entry.did) for entry in trail] == [
        (WHO, Did.CHANGED),
        ("office.kim", Did.READ),
        ("office.kim", Did.READ),
        ("engineer.li", Did.CHANGED),
    ]
    assert trail[-1].fields == ("places",)
    with behind(address) as connection:
        held = str(connection.execute(text("SELECT * FROM audit")).all())
    assert not any(value in held for value in ("Anna", "Whitfield", "Mill", "960123", "ZZ99"))


@pytest.mark.parametrize("by", ["", "  "])
def test_nobody_is_told_anything_without_a_name_to_answer_for_it(register, by):
    for ask in (
        lambda: register.put(record(), by),
        lambda: register.read(FIRST, by),
        lambda: register.seen(FIRST, by),
        lambda: register.erase(1, by),
        lambda: register.replace_key(FIRST, by),
    ):
        with pytest.raises(ValueError, match="Expected the name of the account"):
            ask()


def test_what_cannot_be_traced_is_not_told(register, address):
    register.put(record(), WHO)
    tamper(address, "ALTER TABLE audit RENAME TO gone")
    with pytest.raises(StoreUnavailable):
        register.read(FIRST, WHO)


@pytest.mark.parametrize("table", ["audit", "people", "phones"])
def test_a_failure_tells_the_log_nothing_about_people(register, address, table):
    tamper(address, f"ALTER TABLE {table} RENAME TO gone")
    with pytest.raises(StoreUnavailable) as caught:
        register.put(record(), WHO)
    logged = "".join(format_exception(caught.value))
    assert "INSERT" in logged or "SELECT" in logged
    assert not any(value in logged for value in ("Whitfield", "960123", "Mill Lane"))


def test_a_lost_cards_key_is_withdrawn_and_the_home_has_a_new_one(store, register):
    register.put(record(), WHO)
    new = register.replace_key(FIRST, WHO, TODAY)
    assert store.home(FIRST) == Revoked(FIRST, TODAY)
    assert store.home(new).appliance == "Marlpit C 28"
    assert numbered(register.read(new, WHO)) == replace(record(), key=new)
    assert register.read(FIRST, WHO) is None
    assert [each.key for each in store.homes()] == [new]


def test_nothing_of_the_home_stays_with_a_withdrawn_key(register, address):
    register.put(record(), WHO)
    register.replace_key(FIRST, WHO)
    with behind(address) as connection:
        left = connection.execute(text("SELECT appliance, facts, places FROM homes WHERE revoked IS NOT NULL")).one()
    assert [str(each) for each in left] == ["", "{}", "{}"]


def test_a_withdrawn_key_is_never_written_under_again(register):
    register.put(record(), WHO)
    new = register.replace_key(FIRST, WHO)
    assert [mistake.field for mistake in register.put(record(), WHO)] == ["key"]
    assert register.replace_key(FIRST, WHO) is None
    assert len(register.read(new, WHO).people) == 2


def test_needs_to_be_asked_about_again_are_told_with_the_longest_due_first(register):
    register.put(record(), WHO)
    anna_id = register.read(FIRST, WHO).people[0].id
    due = register.reviews(date(2027, 3, 1), "office.kim")
    assert [(each.key, each.person, each.kind) for each in due] == [
        (FIRST, anna_id, "over-65"),
        (FIRST, anna_id, "power"),
    ]
    assert [each.kind for each in register.reviews(date(2027, 2, 28), "office.kim")] == ["over-65"]
    assert register.reviews(date(2027, 1, 4), "office.kim") == ()
    assert (register.trail(FIRST)[-1].did, register.trail(FIRST)[-1].fields) == (Did.READ, ("people.needs",))


def test_many_who_put_read_and_find_at_once_leave_one_whole_record(register):
    def ask(number: int) -> None:
        asks = (
            lambda: register.put(record(), WHO) and put_over(register, record(), WHO),
            lambda: register.read(FIRST, WHO),
            lambda: register.find(understand("whitfield", "GB"), WHO),
            lambda: [register.erase(hit.id, WHO) for hit in (register.read(FIRST, WHO) or record()).people if hit.id],
        )
        asks[number % 4]()

    with ThreadPoolExecutor(8) as pool:
        list(pool.map(ask, range(64)))
    put_over(register, record(), WHO)
    assert numbered(register.read(FIRST, WHO)) == record()


def test_the_last_card_of_each_size_is_remembered(register):
    register.put(record(), WHO)
    noon = register.trail(FIRST)[0].at
    cards = [Printed(FIRST, size, f"{size}-1", noon) for size in ("a6", "id-1")]
    assert register.printed([*cards, Printed(SECOND, "a6", "x", noon)], WHO) == 2
    register.printed([Printed(FIRST, "a6", "a6-2", noon)], WHO)
    assert [(opened.key, card.size, card.fingerprint) for opened, card in register.cards()] == [
        (FIRST, "a6", "a6-2"),
        (FIRST, "id-1", "id-1-1"),
    ]


def test_a_card_is_held_against_the_home_as_it_is_now(register):
    register.put(record(), WHO)
    register.printed([Printed(FIRST, "a6", "x", register.trail(FIRST)[0].at)], WHO)
    new = register.replace_key(FIRST, WHO)
    [(opened, card)] = register.cards()
    assert (opened.key, card.key) == (new, FIRST)


def test_more_cards_than_are_held_at_once_are_all_walked(register, address):
    register.put(record(), WHO)
    moment = "2026-11-25 12:00:00" + ("" if address.startswith("sqlite") else "+00")
    with behind(address) as connection:
        for size in range(1001):
            connection.execute(
                text(
                    "INSERT INTO printed_cards (home_id, size, key, fingerprint, printed) "
                    "SELECT id, :size, key, 'x', :moment FROM homes"
                ),
                {"size": str(size), "moment": moment},
            )
    assert [card.size for _, card in register.cards()] == [str(size) for size in range(1001)]


def test_a_change_is_made_to_the_home_as_it_is_now(register):
    register.put(record(), WHO)
    built = register.change(FIRST, lambda now: Built(replace(now, places={}), ()), WHO)
    assert built.mistakes == ()
    assert register.read(FIRST, WHO).places == {}
    assert register.trail(FIRST)[1].fields == ("places",)


def test_a_change_with_a_mistake_is_not_made(register):
    register.put(record(), WHO)
    told = register.change(FIRST, lambda now: Built(replace(now, appliances=()), ()), WHO)
    assert [mistake.field for mistake in told.mistakes] == ["appliances"]
    assert len(register.read(FIRST, WHO).appliances) == 2


def test_there_is_nothing_to_change_behind_no_key(register):
    assert register.change(FIRST, lambda now: Built(now, ()), WHO) is None

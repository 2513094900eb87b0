from datetime import date
from pathlib import Path

import pytest
from sqlalchemy import inspect, text

from kb.register import understand
from server.store.register import Did
from tests.registers import FIRST, SECOND, TODAY, record
from tests.server.store.building import behind

WHO = "office.kim"


@pytest.fixture
def register(store):
    store.register.put(record(), "desk.jo")
    return store.register


def everything(address: str) -> str:
    """All that a database holds, in words."""
    with behind(address) as connection:
        tables = inspect(connection).get_table_names()
        return str([connection.execute(text(f"SELECT * FROM {name}")).all() for name in tables])


def person(register, name: str) -> int:
    return next(each.id for each in register.read(FIRST, WHO).people if each.name == name)


def test_a_home_is_shown_with_all_that_is_held(register):
    register.keep(FIRST, "unsafe-notice", TODAY, WHO)
    seen = register.seen(FIRST, WHO)
    assert [each.name for each in seen.record.people] == ["Anna Whitfield", "Bram Oakes"]
    assert [paper.kind for paper in seen.papers] == ["unsafe-notice"]
    assert [entry.did for entry in seen.trail] == [Did.CHANGED, Did.KEPT, Did.SHOWN]
    assert register.seen(SECOND, WHO) is None


def test_nobody_is_shown_what_is_held_about_another(register):
    bram = person(register, "Bram Oakes")
    register.keep(FIRST, "gas-safety-record", TODAY, WHO, bram)
    register.keep(FIRST, "invoice", TODAY, WHO, person(register, "Anna Whitfield"))
    seen = register.seen(FIRST, WHO, bram)
    assert "Anna" not in str(seen)
    assert [paper.kind for paper in seen.papers] == ["gas-safety-record"]


def test_somebody_erased_is_nowhere_any_more(register, address):
    erased = register.erase(person(register, "Anna Whitfield"), WHO)
    assert erased.papers == ()
    assert "people.phones" in erased.fields
    assert not any(value in everything(address) for value in ("Anna", "Whitfield", "whitfield", "960123", "over-65"))
    assert register.find(understand("whitfield", "GB"), WHO) == ()
    assert [each.name for each in register.read(FIRST, WHO).people] == ["Bram Oakes"]


def test_nobody_is_erased_twice(register):
    anna = person(register, "Anna Whitfield")
    assert register.erase(anna, WHO)
    assert register.erase(anna, WHO) is None


@pytest.mark.parametrize("kind", ["sqlite"], indirect=True)
def test_the_file_itself_keeps_no_byte_of_somebody_erased(register, address):
    register.erase(person(register, "Anna Whitfield"), WHO)
    register.erase(person(register, "Bram Oakes"), WHO)
    folder = Path(address.removeprefix("sqlite:///")).parent
    held = b"".join(file.read_bytes() for file in folder.iterdir())
    assert b"Mill Lane" in held
    assert not any(word in held for word in (b"Whitfield", b"whitfield", b"960123", b"321069", b"Oakes"))


def test_what_the_law_keeps_stays_with_its_name_and_rule(register, address):
    bram = person(register, "Bram Oakes")
    assert register.keep(FIRST, "gas-safety-record", date(2026, 6, 1), WHO, bram)
    [paper] = register.erase(bram, WHO, TODAY).papers
    assert (paper.name, paper.until) == ("Bram Oakes", date(2028, 6, 1))
    assert paper.address == "Flat 2, 14 Mill Lane, Ashcombe, ZZ99 3WZ"
    assert "36(3)(c)" in paper.rule
    assert "Bram Oakes" in everything(address)
    assert "442079460018" not in everything(address)


def test_what_need_no_longer_be_kept_goes_with_whoever_is_erased(register, address):
    bram = person(register, "Bram Oakes")
    register.keep(FIRST, "gas-safety-record", date(2024, 11, 24), WHO, bram)
    assert register.erase(bram, WHO, TODAY).papers == ()
    assert "Bram" not in everything(address)


def test_a_paper_is_kept_to_the_end_of_its_last_day(register):
    bram = person(register, "Bram Oakes")
    register.keep(FIRST, "gas-safety-record", date(2024, 11, 25), WHO, bram)
    assert len(register.erase(bram, WHO, TODAY).papers) == 1


def test_the_trail_says_that_somebody_was_erased_and_not_who(register):
    register.erase(person(register, "Anna Whitfield"), WHO)
    last = register.trail(FIRST)[-1]
    assert (last.by, last.did) == (WHO, Did.ERASED)
    assert "Anna" not in str(register.trail(FIRST))


def test_a_paper_is_not_noted_for_a_key_of_no_home(register):
    assert not register.keep(SECOND, "invoice", TODAY, WHO)

from dataclasses import replace
from random import Random

import pytest
from sqlalchemy import text

from kb import keys
from kb.register import Person, understand
from server.store.register import Did, finding
from tests.registers import FIRST, SECOND, THIRD, put_over, record
from tests.server.store.building import behind, home

WHO = "desk.jo"


@pytest.fixture
def register(store):
    """Three homes: Anna Whitfield's, Liam White's and Zoë O'Neil's."""
    register = store.register
    register.put(record(FIRST), WHO)
    register.put(
        record(SECOND, Person("Liam White", phones=("+447700900123",)), street="3 Whitmore Row", postcode="ZZ99 4AA"),
        WHO,
    )
    other = Person("Zoë O’Neil", phones=("+441632960999",))
    register.put(record(THIRD, other, street="8 Millbrook Close", town="Hay", postcode="ZZ9 93AB"), WHO)
    return register


def found(register, typed: str, limit: int = 20):
    return [hit.key for hit in register.find(understand(typed, "GB"), WHO, limit)]


@pytest.mark.parametrize(
    ("typed", "keys"),
    [
        ("01632 960123", [FIRST]),
        ("+44 (0) 1632 960 123", [FIRST]),
        ("01632960123", [FIRST]),
        ("960123", [FIRST]),
        ("0018", [FIRST]),
        ("900123", [SECOND]),
        ("0123", [FIRST, SECOND]),
        ("07700 900124", []),
        ("zz993wz", [FIRST]),
        ("ZZ99 4AA", [SECOND]),
        ("zz99", [FIRST, SECOND, THIRD]),
        ("whitfield", [FIRST]),
        ("WHIT", [FIRST, SECOND]),
        ("white", [SECOND]),
        ("field", [FIRST]),
        ("li", [SECOND]),
        ("anna whit", [FIRST]),
        ("whitfield anna", [FIRST]),
        ("whitfield liam", []),
        ("zoe oneil", [THIRD]),
        ("O'Neil", [THIRD]),
        ("mill lane", [FIRST]),
        ("14 mill", [FIRST]),
        ("ashcombe", [FIRST, SECOND]),
        ("llbro", [THIRD]),
        (f"{FIRST}", [FIRST]),
        (SECOND.lower().replace("-", ""), [SECOND]),
        (SECOND[:5], [SECOND]),
        (THIRD[:4].lower(), [THIRD]),
        (f"{FIRST[:5]} {FIRST[6:8]}", [FIRST]),
        (FIRST[:3], []),
        ("", []),
        ("%", []),
        ('"', []),
        ("nobody", []),
    ],
)
def test_a_home_is_found(register, typed, keys):
    assert sorted(found(register, typed)) == sorted(keys)


def test_a_whole_word_stands_before_its_beginning_and_that_before_any_other_place(register):
    put_over(register, replace(record(THIRD, Person("Snowwhite Marsh"))), WHO)
    put_over(register, replace(record(FIRST, Person("Anna Whitehead"))), WHO)
    assert found(register, "white") == [SECOND, FIRST, THIRD]


def test_a_name_stands_before_a_street(register):
    assert found(register, "whitmo") == [SECOND]
    assert [hit.by for hit in register.find(understand("white", "GB"), WHO)] == ["name"]
    assert [hit.by for hit in register.find(understand("whitmore", "GB"), WHO)] == ["street"]


def test_no_more_homes_are_shown_than_asked_for(register):
    assert len(found(register, "zz99", limit=2)) == 2


def test_a_home_is_shown_once_whatever_it_is_found_by(register):
    put_over(register, record(FIRST, Person("Anna Mill"), Person("Bo Mill")), WHO)
    assert found(register, "mill") == [FIRST, THIRD]


def test_a_hit_tells_homes_apart(register):
    [hit] = register.find(understand("whitfield", "GB"), WHO)
    assert (hit.by, hit.names, hit.town) == ("name", ("Anna Whitfield", "Bram Oakes"), "Ashcombe")
    assert (hit.lines, hit.postcode) == (("Flat 2", "14 Mill Lane"), "ZZ99 3WZ")


def test_the_key_of_a_lost_card_finds_the_home_and_its_new_key(register):
    new = register.replace_key(FIRST, WHO)
    newer = register.replace_key(new, WHO)
    assert found(register, FIRST) == found(register, new) == [newer]


def test_the_beginning_of_a_lost_cards_key_finds_the_home_and_its_new_key(register):
    new = register.replace_key(FIRST, WHO)
    assert found(register, FIRST[:5]) == [new]


def test_homes_whose_keys_begin_alike_stand_in_the_order_of_their_keys(store, register):
    one, two = (keys.make(Random(seed)) for seed in (32, 55))
    assert one[:4] == two[:4] == "4C9F"
    for key in (one, two):
        store.put(home(key))
    assert found(register, "4c9f") == [two, one]


def test_letters_that_begin_a_key_are_taken_for_a_name_first(store, register):
    key = keys.make(Random(21))
    assert key.startswith("AMYM")
    store.put(home(key))
    put_over(register, record(FIRST, Person("Liz Amymore")), WHO)
    assert found(register, "amym") == [FIRST, key]


def test_a_home_that_changed_is_found_as_it_is_now(register):
    put_over(register, record(FIRST, Person("Cleo Dunn"), street="1 High Street"), WHO)
    assert found(register, "whitfield") == found(register, "mill lane") == found(register, "960123") == []
    assert found(register, "dunn") == found(register, "high") == [FIRST]


def test_every_home_that_is_shown_is_in_its_trail(register):
    register.find(understand("whit", "GB"), "office.kim")
    for key in (FIRST, SECOND):
        assert (register.trail(key)[-1].by, register.trail(key)[-1].did) == ("office.kim", Did.FOUND)
    assert all(entry.did is not Did.FOUND for entry in register.trail(THIRD))


def test_words_that_no_home_has_any_more_are_forgotten(register, address):
    put_over(register, record(SECOND, Person("Ann White")), WHO)
    with behind(address) as connection:
        words = set(connection.execute(text("SELECT word FROM seek_words WHERE kind = 'name'")).scalars())
    assert {"white", "whitfield", "ann"} <= words
    assert "liam" not in words


def test_a_word_that_another_home_still_has_is_kept(register):
    put_over(register, record(SECOND, Person("Ann Whitfield")), WHO)
    put_over(register, record(FIRST, Person("Cleo Dunn")), WHO)
    assert found(register, "field") == [SECOND]


@pytest.mark.parametrize(
    "typed", ["whit", "hit", "anna field", "01632 960123", "0123", "zz99", FIRST, FIRST[:5], FIRST[:9]]
)
def test_nothing_but_ranges_of_indexes_is_read(register, address, typed):
    with behind(address) as connection:
        if connection.dialect.name == "postgresql":
            # So small a table is read whole unless that is made dear.
            connection.execute(text("SET LOCAL enable_seqscan = off"))
        for _, statement, sought in finding._looks(connection.dialect.name, understand(typed, "GB")):
            said = plan(connection, statement, {"most": 5, **sought})
            assert "Seq Scan" not in said
            assert "SCAN seek" not in said
            assert "SCAN homes" not in said
            assert "SCAN phones" not in said
            assert "SCAN addresses" not in said


def plan(connection, statement, sought) -> str:
    wanted = "EXPLAIN QUERY PLAN " if connection.dialect.name == "sqlite" else "EXPLAIN "
    literal = statement.params(**sought).compile(connection.engine, compile_kwargs={"literal_binds": True})
    return str(connection.exec_driver_sql(wanted + str(literal).replace("%", "%%")).all())

import re
from dataclasses import replace
from datetime import date
from pathlib import Path
from random import Random

import pytest

from demo.load import FIRM, FOLDER, HOMES, RANGES, let_in, load
from demo.load import keys as opening_keys
from kb import keys
from kb.firm import Firm, read_firm
from kb.home import PLACES, Home, home_limits
from kb.library import load as read_library
from kb.prose import words
from kb.ranges import ENGINEER_ONLY, NO_FAULT, Clears, Range, check_ranges, load_ranges
from kb.register import Appliance, Built, Record
from server.staff.passwords import is_right
from server.store import Revoked, Store

ARTICLES = Path(__file__).parents[2] / "articles" / "en"
TEXTS = [path for path in FOLDER.rglob("*") if path.suffix in {".md", ".toml"}]

# Outside reference: the numbers that the communications regulator in the United Kingdom keeps for drama use.
FICTION = re.compile(r"01632 960\d{3}|07700 900\d{3}|020 7946 0\d{3}")


def the_firm() -> Firm:
    firm, findings = read_firm("firm.toml", FIRM.read_text(encoding="utf-8"))
    assert firm is not None, findings
    return firm


def the_ranges() -> dict[str, Range]:
    ranges, findings = load_ranges(RANGES)
    assert findings == ()
    return dict(ranges)


@pytest.fixture
def homes(tmp_path) -> tuple[Home, ...]:
    load(f"sqlite:///{tmp_path}/demo.db")
    with Store(f"sqlite:///{tmp_path}/demo.db") as store:
        return store.homes()


def test_loading_twice_leaves_the_store_as_after_the_first_time(tmp_path):
    address = f"sqlite:///{tmp_path}/demo.db"
    first = load(address)
    with Store(address) as store:
        before = store.homes()
    assert load(address) == first == [home.key for home in before]
    with Store(address) as store:
        assert store.homes() == before


def test_what_somebody_changed_in_the_demo_stays_until_it_begins_afresh(tmp_path):
    address = f"sqlite:///{tmp_path}/demo.db"
    load(address)
    key = opening_keys()[0]
    with Store(address) as store:
        first = store.register.read(key, "test")
        store.register.change(key, lambda record: Built(replace(record, places={}, people=()), ()), "test")
        changed = store.register.read(key, "test")
        assert changed != first
    load(address)
    with Store(address) as store:
        assert store.register.read(key, "test") == changed
        store.register.put(Record(made := keys.make(Random(5)), (Appliance("Any 20"),)), "test")
    load(address, fresh=True)
    with Store(address) as store:
        again = store.register.read(key, "test")
        assert (again.places, again.address) == (first.places, first.address)
        assert [each.name for each in again.people] == [each.name for each in first.people]
        assert store.home(made).appliance == "Any 20"


def test_a_home_whose_card_was_lost_is_not_made_again(tmp_path):
    address = f"sqlite:///{tmp_path}/demo.db"
    load(address)
    key = opening_keys()[0]
    with Store(address) as store:
        new = store.register.replace_key(key, "test")
    for fresh in (False, True):
        load(address, fresh)
        with Store(address) as store:
            assert isinstance(store.home(key), Revoked)
            assert store.home(new).places
            assert len(store.homes()) == 5


def test_a_sixth_key_was_revoked(tmp_path):
    address = f"sqlite:///{tmp_path}/demo.db"
    opening = load(address)
    written = re.findall(r'^key = "(.*)"$', HOMES.read_text(encoding="utf-8"), re.M)
    (revoked,) = set(written) - set(opening)
    with Store(address) as store:
        assert store.home(revoked) == Revoked(revoked, date(2026, 11, 2))


def test_every_key_is_as_it_is_printed():
    written = re.findall(r'^key = "(.*)"$', HOMES.read_text(encoding="utf-8"), re.M)
    assert len(written) == 6
    assert [keys.tidy(key) for key in written] == written


def test_the_five_homes_are_of_different_kinds(homes):
    kinds = [(h.known.facts["fuel"], h.known.facts["hot-water"], h.known.facts["meter"]) for h in homes]
    assert kinds == [
        ("natural-gas", "combi", "prepay"),
        ("natural-gas", "unvented", "credit"),
        ("natural-gas", "cylinder", "credit"),
        ("lpg", "combi", "none"),
        ("oil", "cylinder", "none"),
    ]


def test_a_vented_home_has_nothing_to_fill(homes):
    (vented,) = (home for home in homes if home.known.facts["system"] == "vented")
    assert vented.known.facts["filling-loop"] == "none"
    assert "filling-loop" not in vented.places


def test_every_home_says_where_gas_water_and_power_are_turned_off(homes):
    for home in homes:
        assert {"gas-valve", "stop-tap", "switch"} <= set(home.places) <= set(PLACES)


def test_the_stricter_limit_of_a_range_reaches_its_homes(homes):
    ranges = the_ranges()
    limits = {home.range: home_limits(home, ranges[home.range]).limits for home in homes}
    assert limits == {"marlpit-c": {"reset": 2}, "sedgebrook": {"reset": 1}, "thornlea": {"reset": 1}}


def test_the_ranges_are_sound_and_every_code_leads_to_a_fault():
    faults = [article.id for article in read_library(ARTICLES).faults()]
    assert check_ranges(the_ranges().values(), faults) == ()


def test_every_range_has_some_codes_of_every_kind():
    for found in the_ranges().values():
        assert 20 <= len(found.codes) <= 30
        assert {NO_FAULT, ENGINEER_ONLY} < {code.category for code in found.codes}
        assert {code.clears for code in found.codes} == set(Clears)


def test_the_ranges_show_two_figures_a_letter_and_figures_and_words_alone():
    shown = {each.id: {re.sub(r"\d", "9", code.code) for code in each.codes} for each in the_ranges().values()}
    assert shown["marlpit-c"] == {"99"}
    assert all(re.fullmatch("[A-Z]99", code) for code in shown["sedgebrook"])
    assert shown["thornlea"] == {""}


def test_every_sentence_for_a_household_is_short():
    for found in the_ranges().values():
        for block in (*found.reset, *found.filling):
            for line in block.lines:
                for sentence in re.split(r"(?<=[.?!])\s+", words(line)):
                    assert len(sentence.split()) <= 15, sentence


def test_the_firm_says_that_it_is_a_demo():
    firm = the_firm()
    assert firm.demo
    assert "DEMO" in firm.registration


def test_the_firm_confirmed_the_emergency_numbers_of_its_region():
    firm = the_firm()
    # Outside reference: one number for all of Great Britain, SI 1996/551 regulation 7; 999 for emergency services.
    assert {each.kind: each.number for each in firm.emergency} == {"gas": "0800 111 999", "emergency": "999"}


@pytest.mark.parametrize("path", TEXTS, ids=lambda path: path.name)
def test_every_phone_number_is_one_kept_for_fiction_or_an_emergency_number(path):
    written = re.findall(r"(?<![\w-])0[\d ]{8,}\d", path.read_text(encoding="utf-8"))
    assert [number for number in written if not FICTION.fullmatch(number) and number != "0800 111 999"] == []


def test_the_firms_own_numbers_are_kept_for_fiction():
    assert all(FICTION.fullmatch(phone.number) for phone in the_firm().phones)


def test_every_home_has_people_and_an_address_and_loading_again_leaves_them(tmp_path):
    address = f"sqlite:///{tmp_path}/demo.db"
    load(address)
    with Store(address) as store:
        before = [store.register.read(key, "test") for key in opening_keys()]
        traces = len([each for each in store.register.trail(before[0].key) if each.did == "changed"])
    load(address)
    with Store(address) as store:
        assert [store.register.read(key, "test") for key in opening_keys()] == before
        assert len([each for each in store.register.trail(before[0].key) if each.did == "changed"]) == traces
    assert all(record.people and record.address for record in before)
    assert {need.kind for record in before for person in record.people for need in person.needs} > {"over-65", "warmth"}


def test_three_people_may_sign_in_with_passwords_made_anew(tmp_path):
    load(f"sqlite:///{tmp_path}/demo.db")
    with Store(f"sqlite:///{tmp_path}/demo.db") as store:
        first, second = let_in(store), let_in(store)
        assert [(each.name, sorted(each.roles)) for each in store.staff.accounts()] == [
            (name, [name]) for name in ("desk", "engineer", "office")
        ]
        assert not set(first.values()) & set(second.values())
        assert is_right(second["office"], store.staff.credentials("office").password)

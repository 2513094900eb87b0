import pytest

from server.store import Revoked, Store
from server.store.register import Did
from tests.registers import FIRST, SECOND, record
from tests.server.commands.running import run


@pytest.fixture
def store(address, monkeypatch):
    monkeypatch.setenv("TUNDISH_DATABASE", address)
    with Store(address) as store:
        store.register.put(record(), "desk.jo")
        yield store


def test_everything_that_is_held_is_shown_and_that_is_in_the_trail(store):
    status, said, _ = run("homes", "show", FIRST.lower())
    assert status == 0
    for held in ("Anna Whitfield", "+441632960123", "14 Mill Lane", "MC-000123", "Needs power", "1 May 2031"):
        assert held in said
    last = store.register.trail(FIRST)[-1]
    assert last.did is Did.SHOWN
    assert last.by.startswith("command:")


def test_a_lost_cards_key_is_replaced(store):
    status, said, _ = run("homes", "rekey", FIRST)
    assert status == 0
    assert isinstance(store.home(FIRST), Revoked)
    new = said.removeprefix("The new key is ").partition(".")[0]
    assert store.home(new).key == new


@pytest.mark.parametrize("verb", ["show", "rekey"])
@pytest.mark.parametrize("key", [SECOND, "nonsense"])
def test_a_key_that_opens_no_home_is_told(store, verb, key):
    status, said, aside = run("homes", verb, key)
    assert (status, said) == (1, "")
    assert "Expected the key of a home" in aside


def test_each_thing_is_done_by_one_command(store):
    homes, person = (run(group, "--help")[1] for group in ("homes", "person"))
    assert all(verb in homes for verb in ("show", "rekey", "import", "export", "template"))
    assert all(verb in person for verb in ("show", "forget"))
    assert not any(verb in homes for verb in ("erase", "forget"))
    assert run("home", "show", FIRST)[0] == 2

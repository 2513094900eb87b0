import pytest
from typer.testing import CliRunner

from server.cli import app
from server.store import Revoked, Store
from server.store.register import Did
from tests.registers import FIRST, SECOND, record

RUNNER = CliRunner()


@pytest.fixture
def store(address, monkeypatch):
    monkeypatch.setenv("TUNDISH_DATABASE", address)
    with Store(address) as store:
        store.register.put(record(), "desk.jo")
        yield store


def run(*words: str, typed: str = "") -> tuple[int, str, str]:
    result = RUNNER.invoke(app, ["home", *words], input=typed)
    return result.exit_code, result.stdout, result.stderr


def number(store, name: str) -> str:
    return next(str(each.id) for each in store.register.read(FIRST, "test").people if each.name == name)


def test_the_people_are_listed_with_their_numbers(store):
    status, said, _ = run("list", FIRST.lower())
    assert status == 0
    assert said.split() == [
        number(store, "Anna Whitfield"), "Anna", "Whitfield", number(store, "Bram Oakes"), "Bram", "Oakes",
    ]  # fmt: skip


def test_everything_that_is_held_is_shown_and_that_is_in_the_trail(store):
    status, said, _ = run("show", FIRST)
    assert status == 0
    for held in ("Anna Whitfield", "+441632960123", "14 Mill Lane", "MC-000123", "Needs power", "1 May 2031"):
        assert held in said
    last = store.register.trail(FIRST)[-1]
    assert last.did is Did.SHOWN
    assert last.by.startswith("command:")


def test_one_person_is_shown_nothing_about_another(store):
    status, said, _ = run("show", FIRST, "--person", number(store, "Bram Oakes"))
    assert status == 0
    assert "Bram Oakes" in said
    assert "Anna" not in said


def test_nobody_is_erased_without_a_yes(store):
    status, _, _ = run("erase", FIRST, typed="n\n")
    assert status == 1
    assert len(store.register.read(FIRST, "test").people) == 2


def test_one_person_is_erased_and_what_stays_is_named(store):
    status, said, _ = run("erase", FIRST, "--person", number(store, "Anna Whitfield"), "--yes")
    assert status == 0
    assert "Anna Whitfield is erased." in said
    assert "Backups made before today" in said
    assert [each.name for each in store.register.read(FIRST, "test").people] == ["Bram Oakes"]


def test_all_people_of_a_home_are_erased_together(store):
    assert run("erase", FIRST, typed="y\n")[0] == 0
    assert store.register.read(FIRST, "test").people == ()


def test_a_lost_cards_key_is_replaced(store):
    status, said, _ = run("rekey", FIRST)
    assert status == 0
    assert isinstance(store.home(FIRST), Revoked)
    new = said.removeprefix("The new key is ").partition(".")[0]
    assert store.home(new).key == new


@pytest.mark.parametrize("verb", ["list", "show", "erase", "rekey"])
@pytest.mark.parametrize("key", [SECOND, "nonsense"])
def test_a_key_that_opens_no_home_is_told(store, verb, key):
    status, said, aside = run(verb, key)
    assert (status, said) == (1, "")
    assert "Expected the key of a home" in aside


@pytest.mark.parametrize("verb", ["show", "erase"])
def test_a_number_of_nobody_is_told(store, verb):
    status, _, aside = run(verb, FIRST, "--person", "999")
    assert status == 1
    assert f"tundish home list {FIRST}" in aside

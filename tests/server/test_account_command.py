"""`tundish account` on a database of its own."""

import re
from pathlib import Path

import pyotp
import pytest
from typer.testing import CliRunner

from kb.staff import Role, made_password, weakness
from server.cli import app
from server.staff.passwords import is_right
from server.store import Store
from server.store.upgrade import migrate


@pytest.fixture
def address(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    address = f"sqlite:///{tmp_path / 'tundish.db'}"
    migrate(address)
    monkeypatch.setenv("TUNDISH_DATABASE", address)
    return address


def run(*words: str, typed: str = "") -> tuple[int, str]:
    done = CliRunner().invoke(app, ["account", *words], input=typed)
    return done.exit_code, done.output


def test_an_account_is_added_with_a_password_made_for_it(address: str) -> None:
    status, said = run("add", "Wren Ashby", "--role", "desk", "--role", "office")

    password = said.rsplit(": ", 1)[1].strip()
    with Store(address) as store:
        kept = store.staff.credentials("wren ashby")
    assert status == 0
    assert kept is not None
    assert kept.account.roles == {Role.DESK, Role.OFFICE}
    assert is_right(password, kept.password)


def test_a_password_may_be_typed_and_is_never_printed(address: str) -> None:
    status, said = run("add", "Wren", "--role", "desk", "--password-stdin", typed="kettle lamp orbit moss\n")

    assert status == 0
    assert "kettle" not in said
    assert run("add", "Robin", "--role", "desk", "--password-stdin", typed="short\n")[0] == 1


def test_a_name_is_taken_once(address: str) -> None:
    run("add", "Wren", "--role", "desk")
    status, said = run("add", "WREN", "--role", "office")

    assert status == 1
    assert "Choose another name" in said


def test_the_list_names_who_signs_in_and_how(address: str) -> None:
    run("add", "Wren", "--role", "desk")
    run("add", "Robin", "--role", "engineer")
    run("code", "Robin")
    run("end", "Wren")

    assert run("list")[1] == "Robin: engineer  with one-time code\n"


def test_a_code_is_set_up_with_an_address_that_apps_read(address: str) -> None:
    run("add", "Wren", "--role", "desk")
    _, said = run("code", "Wren")

    secret = re.search(r"otpauth://totp/\S*secret=(\w+)", said)
    with Store(address) as store:
        kept = store.staff.credentials("Wren")
    assert secret is not None
    assert kept is not None
    assert kept.code_secret == secret[1]
    assert len(pyotp.TOTP(secret[1]).now()) == 6
    assert run("code", "Wren", "--off") == (0, "Wren signs in without a code now.\n")


def test_a_new_password_ends_every_session(address: str) -> None:
    run("add", "Wren", "--role", "desk")
    status, said = run("password", "Wren")

    assert status == 0
    assert said.startswith("Wren signs in with: ")
    assert run("sign-out", "Wren") == (0, "Ended 0 sessions of Wren.\n")


@pytest.mark.parametrize(
    "words", [["roles", "Nobody", "--role", "desk"], ["password", "Nobody"], ["code", "Nobody"], ["end", "Nobody"]]
)
def test_a_name_of_nobody_is_told(address: str, words: list[str]) -> None:
    status, said = run(*words)

    assert status == 1
    assert "tundish account list" in said


def test_a_password_that_was_made_is_one_that_may_be_used() -> None:
    made = {made_password() for _ in range(50)}

    assert len(made) == 50
    assert not any(weakness(each, "Wren") for each in made)

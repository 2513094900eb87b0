"""The command as a person runs it: its words, its exit status, nothing inner shown."""

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from demo.load import FIRM, keys, load
from server.cli import app
from server.store.database import known_versions

RUNNER = CliRunner()


@pytest.fixture
def machine(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A machine with the demo loaded."""
    address = f"sqlite:///{tmp_path / 'homes.db'}"
    load(address)
    monkeypatch.setenv("TUNDISH_DATABASE", address)
    return tmp_path


def run(*words: str, typed: str = "") -> tuple[int, str, str]:
    result = RUNNER.invoke(app, list(words), input=typed)
    return result.exit_code, result.stdout, result.stderr


def test_check_is_silent_and_prints_its_proof() -> None:
    status, said, aside = run("check")

    assert (status, said) == (0, "")
    assert "Proof: " in aside
    assert "walks through" in aside


def test_check_names_every_finding_and_fails(tmp_path: Path) -> None:
    (tmp_path / "broken.md").write_text("# No header\n")
    (tmp_path / "unreadable.md").write_bytes(b"\xff\xfe\x00")

    status, said, _ = run("check", "--articles", str(tmp_path))

    assert status == 1
    assert "broken.md:1: header: There is no header." in said
    assert "unreadable.md:1: unreadable:" in said


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    status, _, aside = run("check", "--articles", str(tmp_path / "nowhere"))

    assert status == 2
    assert "Expected a folder of articles" in aside


def test_a_rule_explains_itself_and_an_unknown_one_says_which_there_are() -> None:
    assert run("check", "--explain", "dead-end")[0] == 0
    status, _, aside = run("check", "--explain", "no-such-rule")

    assert status == 2
    assert "dead-end" in aside


def test_find_prints_a_line_of_json_for_each_line() -> None:
    status, said, _ = run("find", "-", "--json", typed="I can smell gas\nthe gauge is at zero\n\n")

    danger, pressure, nothing = (json.loads(line) for line in said.splitlines())
    assert status == 0
    assert "gas-smell" in danger["danger"]
    assert pressure["hits"][0]["article"] == "low-pressure"
    assert set(pressure["hits"][0]) == {"article", "score"}
    assert nothing == {"danger": [], "hits": []}


def test_walk_asks_its_way_to_an_end() -> None:
    no_danger = "3\n" * 8

    status, said, _ = run("walk", "low-pressure", typed=no_danger + "nonsense\n99\n" + "1\n" * 40)

    assert status == 0
    assert "Does your boiler have a pressure gauge?" in said
    assert "Type a number from 1 to" in said
    assert "Whom to call: " in said


def test_walk_names_the_articles_there_are() -> None:
    status, _, aside = run("walk", "nothing")

    assert status == 2
    assert "low-pressure" in aside


def test_card_writes_a_pdf(machine: Path) -> None:
    status, said, _ = run("card", keys()[0].lower(), "--to", str(machine / "new" / "card.pdf"))

    assert status == 0, said
    assert (machine / "new" / "card.pdf").read_bytes().startswith(b"%PDF-")


@pytest.mark.parametrize("key", ["nonsense", "23479-23479-23479"])
def test_card_refuses_a_key_of_no_home(machine: Path, key: str) -> None:
    status, _, aside = run("card", key, "--to", str(machine / "card.pdf"))

    assert status == 1
    assert "a key of no home" in aside
    assert not (machine / "card.pdf").exists()


def test_a_card_without_confirmed_numbers_is_refused_with_every_reason(
    machine: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    text = FIRM.read_text().partition("[[emergency]]")[0]
    (machine / "firm.toml").write_text(text)
    monkeypatch.setenv("TUNDISH_FIRM", str(machine / "firm.toml"))

    status, _, aside = run("card", keys()[0], "--to", str(machine / "card.pdf"))

    assert status == 1, aside
    assert aside.count("\n- ") == 2
    assert not (machine / "card.pdf").exists()


def test_serving_without_a_database_says_how_to_make_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TUNDISH_DATABASE", f"sqlite:///{tmp_path / 'none.db'}")
    monkeypatch.setenv("TUNDISH_PORT", "18999")

    status, _, aside = run("serve")

    assert status == 2
    assert "tundish migrate" in aside


def test_a_broken_article_folder_is_not_served(machine: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (machine / "articles").mkdir()
    (machine / "articles/broken.md").write_text("# No header\n")
    monkeypatch.setenv("TUNDISH_ARTICLES", str(machine / "articles"))
    monkeypatch.setenv("TUNDISH_PORT", "18999")

    status, _, aside = run("serve")

    assert status == 2
    assert "broken.md:1: header" in aside


@pytest.mark.parametrize("port", ["0", "65536", "http", "-1"])
def test_a_port_that_cannot_be_is_told(monkeypatch: pytest.MonkeyPatch, port: str) -> None:
    monkeypatch.setenv("TUNDISH_PORT", port)

    status, _, aside = run("serve")

    assert status == 2
    assert "TUNDISH_PORT" in aside


def test_migrate_says_the_version(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TUNDISH_DATABASE", f"sqlite:///{tmp_path / 'new.db'}")

    assert run("migrate") == (0, f"The database is at version {known_versions()[-1]}.\n", "")

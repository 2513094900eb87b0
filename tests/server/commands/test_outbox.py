"""`tundish outbox` on a database of its own."""

from datetime import timedelta
from pathlib import Path

import pytest
from typer.testing import CliRunner

from server.cli import app
from server.store import Store
from server.store.upgrade import migrate
from tests.requests import NOW, asked


@pytest.fixture
def address(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    address = f"sqlite:///{tmp_path / 'tundish.db'}"
    migrate(address)
    monkeypatch.setenv("TUNDISH_DATABASE", address)
    monkeypatch.setenv("TUNDISH_MAIL_HOST", "mail.example")
    monkeypatch.setenv("TUNDISH_MAIL_TO", "office@heating.example")
    return address


def run() -> tuple[int, str, str]:
    done = CliRunner().invoke(app, ["outbox"])
    return done.exit_code, done.stdout, done.stderr


def test_an_empty_outbox_says_so(address: str) -> None:
    assert run() == (0, "", "0 wait to be told.\n")


def test_what_waits_is_listed_with_why_and_without_who(address: str) -> None:
    with Store(address) as store:
        store.requests.put(asked(), ["mail"], "somewhere", NOW)
        letter = store.outbox.claim("mail", NOW)
        assert letter is not None
        store.outbox.failed(letter, "Expected a server, found none. Start it.", NOW + timedelta(minutes=5))
        reference = letter.request.reference

    status, said, aside = run()

    assert (status, aside) == (1, "1 wait to be told.\n")
    assert said == (
        f"{reference}  mail    since 2026-11-25 09:00 UTC, tried 1 times, next 09:05 UTC. "
        "Expected a server, found none. Start it.\n"
    )


def test_a_way_that_is_set_up_no_more_is_said(address: str) -> None:
    with Store(address) as store:
        store.requests.put(asked(), ["webhook"], "somewhere", NOW)

    assert "This way is not set up any more." in run()[1]


def test_that_there_is_no_way_is_said(address: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("TUNDISH_MAIL_HOST")

    assert "set TUNDISH_MAIL_HOST or TUNDISH_WEBHOOK_URL" in run()[2]

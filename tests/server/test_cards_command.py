"""The commands that print cards, as a person runs them."""

from datetime import UTC, datetime
from pathlib import Path

import pytest
from pypdf import PdfReader
from typer.testing import CliRunner

from demo.load import keys, load
from server.cli import app
from server.store import Store
from server.store.register import Printed

RUNNER = CliRunner()
WITHDRAWN = "9432C-7WCCN-JEXRU"


@pytest.fixture(scope="module")
def database(tmp_path_factory) -> str:
    address = f"sqlite:///{tmp_path_factory.mktemp('database') / 'homes.db'}"
    load(address)
    return address


@pytest.fixture
def machine(database: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("TUNDISH_DATABASE", database)
    return tmp_path


def run(*words: str, typed: str = "") -> tuple[int, str, str]:
    result = RUNNER.invoke(app, list(words), input=typed)
    return result.exit_code, result.stdout, result.stderr


def page_mm(pdf: Path) -> tuple[int, int]:
    box = PdfReader(pdf).pages[0].mediabox
    return round(float(box.width) * 25.4 / 72), round(float(box.height) * 25.4 / 72)


def test_a_card_comes_in_the_size_that_was_asked_for(machine):
    status, _, aside = run("card", keys()[0], "--to", str(machine / "card.pdf"), "--size", "id1")
    assert status == 0, aside
    assert page_mm(machine / "card.pdf") == (86, 54)


def test_all_cards_come_in_one_pdf(machine):
    status, said, aside = run("cards", "--all", "--sheet", "--to", str(machine / "cards.pdf"))
    assert (status, said) == (0, "")
    assert f"{len(keys())} cards" in aside
    assert page_mm(machine / "cards.pdf") == (210, 297)
    # Four to a sheet, and a side for the backs.
    assert len(PdfReader(machine / "cards.pdf").pages) == 2 * -(-len(keys()) // 4)


def test_keys_are_read_as_they_are_typed_each_home_once_and_wrong_ones_told(machine):
    typed = f"{keys()[1].lower()}\n\n{keys()[1]}\nnonsense\n{WITHDRAWN}\n"
    status, said, aside = run("cards", "--keys", "-", "--to", str(machine / "cards.pdf"), typed=typed)
    assert status == 1
    assert "a key of no home: nonsense" in said
    assert f"a key that was withdrawn: {WITHDRAWN}" in said
    assert "1 card " in aside
    assert len(PdfReader(machine / "cards.pdf").pages) == 2


def test_only_the_cards_of_this_size_that_changed_are_printed(machine, database):
    when = datetime(2026, 11, 1, tzinfo=UTC)
    old = [Printed(keys()[0], "a6", "0" * 64, when), Printed(keys()[1], "id1", "0" * 64, when)]
    with Store(database) as store:
        store.register.printed(old, "test")
    status, _, aside = run("cards", "--changed", "--to", str(machine / "cards.pdf"))
    assert status == 0, aside
    assert "1 card " in aside
    assert keys()[0] in PdfReader(machine / "cards.pdf").pages[0].extract_text().replace("\n", "")


def test_where_no_card_changed_none_is_written(machine):
    status, _, aside = run("cards", "--changed", "--size", "a5", "--to", str(machine / "cards.pdf"))
    assert (status, list(machine.iterdir())) == (0, [])
    assert "No card was written." in aside


@pytest.mark.parametrize("chosen", [[], ["--all", "--keys", "-"], ["--all", "--changed"]])
def test_whose_cards_must_be_said_in_one_way(machine, chosen):
    status, _, aside = run("cards", *chosen, "--to", str(machine / "cards.pdf"))
    assert status == 2
    assert "--keys" in aside
    assert "--all" in aside


def test_a_file_of_keys_that_is_not_there_is_told(machine):
    status, _, aside = run("cards", "--keys", str(machine / "none.txt"), "--to", str(machine / "cards.pdf"))
    assert status == 2
    assert "Expected a file of keys" in aside


def test_a_place_that_cannot_be_written_is_told(machine):
    (machine / "file").write_text("")
    status, _, aside = run("cards", "--all", "--to", str(machine / "file" / "cards.pdf"))
    assert status == 2
    assert "Expected to write" in aside

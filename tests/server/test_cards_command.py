"""The commands that print cards, as a person runs them."""

from pathlib import Path

import pytest
from pypdf import PdfReader
from typer.testing import CliRunner

from demo.load import keys, load
from server.cli import app

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


@pytest.mark.parametrize("chosen", [[], ["--all", "--keys", "-"]])
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

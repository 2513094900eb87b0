from pathlib import Path

import pytest

from kb.library import UnusableFolder
from kb.proof import prove
from server.author import Shelf
from tests.server.author.conftest import NOON

FAULT = "cold-boiler.md"


def change(folder: Path, old: str, new: str) -> None:
    file = folder / FAULT
    file.write_text(file.read_text(encoding="utf-8").replace(old, new), encoding="utf-8")


def test_a_sound_folder_has_no_findings(shelf: Shelf) -> None:
    assert (shelf.look.in_articles, shelf.look.in_ranges) == ((), ())
    assert shelf.look.at == NOON
    assert shelf.look.proof is None


def test_a_second_look_sees_what_was_saved(shelf: Shelf, folder: Path) -> None:
    before = shelf.look
    change(folder, "](#is-it-loud)", "](#is-it-lout)")

    shelf.look_again()

    assert shelf.look.version > before.version
    assert {finding.rule for finding in shelf.look.findings(FAULT)} == {"unknown-link", "unreachable-step"}
    assert before.findings(FAULT) == ()


def test_a_file_that_cannot_be_read_has_a_finding_and_a_place_in_the_list(shelf: Shelf, folder: Path) -> None:
    (folder / FAULT).write_bytes(b"---\ntitle: caf\xe9\n")

    shelf.look_again()

    assert "cold-boiler" not in shelf.look.library.articles
    assert FAULT in shelf.look.files
    assert [finding.rule for finding in shelf.look.findings(FAULT)] == ["unreadable"]


def test_a_file_that_is_gone_is_gone(shelf: Shelf, folder: Path) -> None:
    (folder / FAULT).unlink()

    shelf.look_again()

    assert FAULT not in shelf.look.files


def test_a_folder_that_vanishes_is_a_finding_and_no_failure(shelf: Shelf, folder: Path) -> None:
    folder.rename(folder.with_name("elsewhere"))

    shelf.look_again()

    assert [finding.rule for finding in shelf.look.in_articles] == ["unreadable"]
    assert "Name the right folder." in str(shelf.look.in_articles[0])


def test_a_desk_needs_a_folder_to_begin_with(tmp_path: Path) -> None:
    with pytest.raises(UnusableFolder):
        Shelf(tmp_path / "nowhere", tmp_path)


def test_the_proof_belongs_to_the_look_it_was_made_from(shelf: Shelf) -> None:
    before = shelf.look.version

    shelf.prove()

    assert shelf.look.proof is not None
    assert shelf.look.proof.walks > 0
    assert shelf.look.version > before
    shelf.look_again()
    assert shelf.look.proof is None


def test_a_proof_that_was_overtaken_by_a_save_is_dropped(folder: Path) -> None:
    shelf = Shelf(folder, folder / "ranges", prover=lambda library: (shelf.look_again(), prove(library))[1])

    shelf.prove()

    assert shelf.look.proof is None


def test_what_the_proof_finds_stands_with_the_other_findings(shelf: Shelf, folder: Path) -> None:
    change(folder, "- [No](ends.md#nothing-is-wrong)", "- [No](#does-it-hum)")
    shelf.look_again()
    by_rules = {finding.rule for finding in shelf.look.findings(FAULT)}

    shelf.prove()

    assert "safety-proof" not in by_rules
    assert "safety-proof" in {finding.rule for finding in shelf.look.findings(FAULT)}


def test_what_is_wrong_in_a_range_is_told_apart(shelf: Shelf, folder: Path) -> None:
    file = folder / "ranges/plain.md"
    file.write_text(file.read_text(encoding="utf-8").replace("no-fault", "no-such-fault"), encoding="utf-8")

    shelf.look_again()

    assert [finding.rule for finding in shelf.look.in_ranges] == ["unknown-category"]
    assert shelf.look.in_articles == ()


def test_every_save_since_the_latest_look_is_noticed(shelf: Shelf, folder: Path) -> None:
    assert not shelf.changed()

    for change in (
        lambda: (folder / "new.md").write_text("begun", encoding="utf-8"),
        lambda: (folder / "new.md").write_text("begun, and gone on", encoding="utf-8"),
        lambda: (folder / "regions/xa.toml").write_text("", encoding="utf-8"),
        lambda: (folder / "ranges/plain.md").unlink(),
    ):
        change()
        assert shelf.changed()
        shelf.look_again()
        assert not shelf.changed()

"""Many cards at once: in parts, carried on with, the refused ones named."""

from dataclasses import replace
from pathlib import Path
from random import Random

import pytest
from pypdf import PdfReader

from kb import keys
from kb.facts import Known
from server.printing import MOST_IN_ONE, PART, Wanted, print_cards, too_many
from server.site import Site
from tests.server.conftest import SEALED

HOMES = tuple(replace(SEALED, key=keys.make(Random(n)), appliance=f"Marlpit C {n}") for n in range(PART + 2))
UNKNOWN = replace(SEALED, key=keys.make(Random(99)), known=Known({"fuel": "natural-gas"}))


def written(site: Site, homes, to: Path, sheets=False, tell=lambda count: None):
    return print_cards(site, Wanted(homes, "id1", sheets), to, tell)


def pages(pdf: Path) -> int:
    return len(PdfReader(pdf).pages)


def stamps(folder: Path) -> dict[str, int]:
    return {path.name: path.stat().st_mtime_ns for path in folder.glob("*.pdf")}


def test_many_cards_come_in_one_pdf_and_nothing_else_is_left(site, tmp_path):
    told: list[int] = []
    assert written(site, HOMES, tmp_path / "new" / "cards.pdf", tell=told.append) == ()
    assert pages(tmp_path / "new" / "cards.pdf") == 2 * len(HOMES)
    assert [path.name for path in (tmp_path / "new").iterdir()] == ["cards.pdf"]
    assert told == [PART, 2]


def test_on_sheets_ten_cards_of_a_banks_size_take_two_pages(site, tmp_path):
    written(site, HOMES[:11], tmp_path / "cards.pdf", sheets=True)
    assert pages(tmp_path / "cards.pdf") == 4


def test_a_folder_gets_numbered_pdfs(site, tmp_path):
    written(site, HOMES, tmp_path / "cards")
    assert sorted(stamps(tmp_path / "cards")) == ["cards-001.pdf", "cards-002.pdf"]


class Stopped(Exception):
    """The process was killed."""


def stop(count: int) -> None:
    raise Stopped


def test_what_was_printed_before_a_stop_is_not_printed_again(site, tmp_path):
    with pytest.raises(Stopped):
        written(site, HOMES, tmp_path / "cards.pdf", tell=stop)
    before = stamps(tmp_path / "cards.pdf.parts")
    assert list(before) == ["cards-001.pdf"]

    seen: list[dict[str, int]] = []
    written(site, HOMES, tmp_path / "cards.pdf", tell=lambda count: seen.append(stamps(tmp_path / "cards.pdf.parts")))

    assert seen[0] == before
    assert pages(tmp_path / "cards.pdf") == 2 * len(HOMES)


def test_a_part_without_its_note_was_not_finished_and_is_printed_again(site, tmp_path):
    written(site, HOMES[:2], tmp_path)
    (tmp_path / "cards-001.pdf").write_bytes(b"half a")
    (tmp_path / ".cards-001.json").unlink()
    written(site, HOMES[:2], tmp_path)
    assert pages(tmp_path / "cards-001.pdf") == 4


@pytest.mark.parametrize("note", ["", "[]", "{}", '{"source": 1}'])
def test_a_note_that_cannot_be_read_counts_for_nothing(site, tmp_path, note):
    (tmp_path / ".cards-001.json").write_text(note)
    written(site, HOMES[:1], tmp_path)
    assert pages(tmp_path / "cards-001.pdf") == 2


def test_only_the_part_with_a_changed_home_is_printed_again(site, tmp_path):
    written(site, HOMES, tmp_path)
    before = stamps(tmp_path)
    written(site, (*HOMES[:-1], replace(HOMES[-1], next_service=None, appliance="Marlpit X")), tmp_path)
    after = stamps(tmp_path)
    assert after["cards-001.pdf"] == before["cards-001.pdf"]
    # The smallest card does not carry the appliance's name, its title does.
    assert after["cards-002.pdf"] != before["cards-002.pdf"]


def test_a_shorter_run_takes_away_what_a_longer_one_left(site, tmp_path):
    written(site, HOMES, tmp_path)
    (tmp_path / "cards-notes.pdf").write_bytes(b"somebody else's")
    written(site, HOMES[:1], tmp_path)
    assert sorted(stamps(tmp_path)) == ["cards-001.pdf", "cards-notes.pdf"]


def test_the_refused_are_named_with_key_and_field_and_the_rest_is_printed(site, tmp_path):
    (refusal,) = written(site, (HOMES[0], UNKNOWN, HOMES[1]), tmp_path)
    assert refusal.key == UNKNOWN.key
    assert refusal.reasons[0].startswith("home.facts.system: ")
    assert pages(tmp_path / "cards-001.pdf") == 4


def test_the_refused_are_named_again_when_their_part_is_there_already(site, tmp_path):
    first = written(site, (HOMES[0], UNKNOWN), tmp_path)
    before = stamps(tmp_path)
    assert written(site, (HOMES[0], UNKNOWN), tmp_path) == first
    assert stamps(tmp_path) == before


def test_where_everybody_is_refused_there_is_no_pdf(site, tmp_path):
    assert len(written(site, (UNKNOWN,), tmp_path / "cards.pdf")) == 1
    assert list(tmp_path.glob("cards.pdf*")) == []


@pytest.mark.parametrize(
    ("count", "to", "refused"),
    [(MOST_IN_ONE, "c.pdf", False), (MOST_IN_ONE + 1, "c.pdf", True), (MOST_IN_ONE + 1, "cards", False)],
)
def test_more_than_one_pdf_can_hold_go_into_a_folder(count, to, refused):
    found = too_many(Wanted([SEALED] * count, "a6", True), Path(to))
    assert (found is not None) is refused
    assert not found or "Name a folder, such as c;" in found

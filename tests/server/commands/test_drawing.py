from pathlib import Path
from xml.etree import ElementTree

import pytest

from tests.server.commands.running import run


def test_a_picture_goes_to_standard_output_or_into_a_file(tmp_path: Path) -> None:
    _, said, _ = run("draw", "low-pressure")
    status, wrote, _ = run("draw", "low-pressure", "--to", str(tmp_path / "new/tree.svg"))

    assert (status, wrote) == (0, f"Wrote {tmp_path / 'new/tree.svg'}.\n")
    assert (tmp_path / "new/tree.svg").read_text() == said.removesuffix("\n")
    assert ElementTree.fromstring(said).tag.endswith("svg")


def test_the_engineers_part_is_drawn_when_asked_for() -> None:
    assert "Bag the relief outlet" in run("draw", "low-pressure", "--engineer")[1]
    assert "Bag the relief outlet" not in run("draw", "low-pressure")[1]


@pytest.mark.parametrize("words", [("nothing",), ("ends",), ("read-the-gauge", "--engineer")])
def test_an_article_without_such_a_part_is_told(words: tuple[str, ...]) -> None:
    status, said, aside = run("draw", *words)

    assert (status, said) == (2, "")
    assert f"found {words[0]!r}" in aside
    assert "low-pressure" in aside


def test_a_file_that_cannot_be_read_says_why(tmp_path: Path) -> None:
    (tmp_path / "half.md").write_text("# Half\n")

    status, _, aside = run("draw", "half", "--articles", str(tmp_path))

    assert status == 2
    assert "half.md:1: header: There is no header." in aside


def test_a_place_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")

    status, _, aside = run("draw", "low-pressure", "--to", str(tmp_path / "file/tree.svg"))

    assert status == 2
    assert "Name another file." in aside


def test_what_the_rules_find_is_marked_in_the_picture(tmp_path: Path) -> None:
    (tmp_path / "odd.md").write_text(
        "---\ntitle: Odd\nkind: how-to\nreviewed: 2026-11-20\nsources: [common practice]\n---\n\n# Odd\n\n"
        "## For the household\n\n### Is it odd?\n\n- [Yes](#nowhere)\n- [No](#is-it-odd)\n"
    )

    _, said, _ = run("draw", "odd", "--articles", str(tmp_path))

    assert "Line 14: unknown-link" in said
    assert "Leads nowhere" in said

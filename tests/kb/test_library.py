from pathlib import Path

import pytest

from kb.article import Audience
from kb.library import UnusableFolder, load
from kb.prose import Target
from tests.builders import DANGER, header, library

FAULT = (
    "# A fault\n\n## For the household\n\n### Ask\n\n- [Yes](ends.md#it-works)\n\n"
    "## For the engineer\n\n### Measure\n\n- [Good](ends.md#job-closed)\n"
)


def test_a_broken_file_does_not_stop_the_others_from_being_read(tmp_path: Path) -> None:
    (tmp_path / "danger.md").write_text(header("danger", "Before anything else") + DANGER)
    (tmp_path / "broken.md").write_text("no header at all")
    (tmp_path / "bytes.md").write_bytes(b"\xff\xfe")

    read = load(tmp_path)

    assert list(read.articles) == ["danger"]
    assert {(str(finding.place), finding.rule) for finding in read.findings} == {
        ("broken.md:1", "header"),
        ("bytes.md:1", "unreadable"),
    }


def test_a_region_that_cannot_be_read_is_a_finding(tmp_path: Path) -> None:
    (tmp_path / "regions").mkdir()
    (tmp_path / "regions/xx.toml").write_text("code = ")

    assert [finding.rule for finding in load(tmp_path).findings] == ["region"]


@pytest.mark.parametrize("folder", ["nowhere", "."])
def test_a_folder_without_articles_cannot_be_used(tmp_path: Path, folder: str) -> None:
    with pytest.raises(UnusableFolder, match="Name the right folder"):
        load(tmp_path / folder)


def test_a_household_finds_no_place_of_the_engineers() -> None:
    books = library(fault=FAULT)

    assert books.find(Target("fault", "measure"), Audience.HOUSEHOLD) is None
    assert books.find(Target("fault", "measure"), Audience.ENGINEER) is not None
    assert books.find(Target("ends", "job-closed"), Audience.HOUSEHOLD) is None


def test_a_link_to_an_article_leads_to_its_first_step_for_whoever_goes() -> None:
    books = library(fault=FAULT)

    household = books.find(Target("fault"), Audience.HOUSEHOLD)
    engineer = books.find(Target("fault"), Audience.ENGINEER)

    assert household is not None
    assert engineer is not None
    assert (household.title, engineer.title) == ("Ask", "Measure")

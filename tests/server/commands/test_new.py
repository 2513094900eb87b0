from pathlib import Path

import pytest

from tests.server.commands.running import run

ROOT = Path(__file__).parents[3]


@pytest.fixture
def articles(tmp_path: Path) -> Path:
    """A folder with one fault, whose file was given another name."""
    folder = tmp_path / "articles"
    folder.mkdir()
    fault = (ROOT / "articles/en/low-pressure.md").read_text(encoding="utf-8")
    (folder / "renamed.md").write_text(fault, encoding="utf-8")
    return folder


@pytest.mark.parametrize("kind", ["fault", "how-to", "shared"])
def test_a_skeleton_is_written_under_its_name(articles: Path, kind: str) -> None:
    status, said, _ = run("new", kind, "slow-hot-water", "--articles", str(articles))

    text = (articles / "slow-hot-water.md").read_text(encoding="utf-8")
    assert status == 0
    assert f"kind: {kind}" in text
    assert "# ‹Slow hot water›" in text
    assert "tundish write" in said


def test_a_range_goes_into_the_folder_of_ranges(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TUNDISH_RANGES", str(tmp_path / "new/ranges"))

    assert run("new", "range", "any-c")[0] == 0
    assert (tmp_path / "new/ranges/any-c.md").read_text(encoding="utf-8").startswith("---\nname: ‹Any c›\n")


def test_nothing_is_overwritten_and_what_is_there_is_named(articles: Path) -> None:
    (articles / "mine.md").write_text("---\n---\n\n# My own words\n")

    status, _, aside = run("new", "how-to", "mine", "--articles", str(articles))

    assert status == 1
    assert "mine.md is there already: My own words." in aside
    assert "My own words" in (articles / "mine.md").read_text()


def test_a_category_is_taken_once_whatever_its_file_is_called(articles: Path) -> None:
    status, _, aside = run("new", "fault", "low-pressure", "--articles", str(articles))

    assert status == 1
    assert "renamed.md has 'low-pressure' already: The heating pressure is too low." in aside
    assert not (articles / "low-pressure.md").exists()


@pytest.mark.parametrize("words", [("story", "slow"), ("fault", "Slow"), ("fault", "../slow"), ("how-to", "a b")])
def test_a_kind_or_a_name_that_cannot_be_is_told(articles: Path, words: tuple[str, str]) -> None:
    status, _, aside = run("new", *words, "--articles", str(articles))

    assert status == 2
    assert aside.startswith("Expected ")
    assert list(articles.iterdir()) == [articles / "renamed.md"]


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    status, _, aside = run("new", "fault", "slow", "--articles", str(tmp_path / "nowhere"))

    assert status == 2
    assert "Make the folder, or name another." in aside


def test_the_first_article_of_an_empty_folder_is_written(tmp_path: Path) -> None:
    assert run("new", "fault", "slow", "--articles", str(tmp_path))[0] == 0
    assert (tmp_path / "slow.md").exists()

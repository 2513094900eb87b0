"""A skeleton can be read at once, asks for nothing but words, and is without fault when it has them."""

import re
from datetime import date
from pathlib import Path

import pytest

from kb.article import Article
from kb.findings import Finding
from kb.library import Library, build, load
from kb.notation import read_article
from kb.notation.ranges import read_range
from kb.proof import prove
from kb.ranges import forbidden_words, unknown_categories
from kb.rules import check
from kb.skeletons import KINDS, is_id, skeleton

ROOT = Path(__file__).parents[3]
TODAY = date(2026, 11, 25)
ARTICLES = [kind for kind in KINDS if kind != "range"]


@pytest.fixture(scope="module")
def books() -> Library:
    return load(ROOT / "articles/en")


def filled(text: str) -> str:
    """What is left when an author takes each placeholder's own words, and has it read."""
    return re.sub("[‹›]", "", text).replace("not yet", str(TODAY))


def among(books: Library, *texts: tuple[str, str]) -> tuple[Library, list[Finding]]:
    """The library that is served with more articles in it, and what the reading of those found."""
    articles: list[Article] = []
    findings: list[Finding] = []
    for file, text in texts:
        article, found = read_article(file, text)
        articles += [article] if article else []
        findings += found
    return build([*books.articles.values(), *articles], books.regions.values(), findings), findings


@pytest.mark.parametrize("kind", ARTICLES)
def test_a_skeleton_asks_for_words_and_for_a_reader_and_for_nothing_else(books: Library, kind: str) -> None:
    library, _ = among(books, (f"trial-{kind}.md", skeleton(kind, f"trial-{kind}", TODAY)))

    rules = {finding.rule for finding in check(library, TODAY)}

    lone = {"unreachable-step"} if kind == "shared" else set()
    assert rules == {"placeholder", "never-reviewed"} | lone


def test_filled_in_the_skeletons_are_silent_and_no_walk_goes_wrong(books: Library) -> None:
    fault, how_to, shared = (filled(skeleton(kind, f"trial-{kind}", TODAY)) for kind in ARTICLES)
    fault = fault.replace("(before-you-leave.md)", "(trial-shared.md)", 1)
    library, _ = among(books, ("trial-fault.md", fault), ("trial-how-to.md", how_to), ("trial-shared.md", shared))

    assert list(map(str, check(library, TODAY))) == []
    assert prove(library).findings == ()


def test_the_skeleton_of_a_range_asks_for_words_and_a_reader_and_is_silent_with_them(books: Library) -> None:
    written = skeleton("range", "trial", TODAY)
    _, found = read_range("trial.md", written)
    whole, still_found = read_range("trial.md", filled(written))

    assert {finding.rule for finding in found} == {"placeholder", "never-reviewed"}
    assert whole is not None
    assert still_found == unknown_categories([whole], books.articles) == forbidden_words([whole]) == ()
    assert len(whole.codes) == 3


@pytest.mark.parametrize("name", ["slow-hot-water", "e1", "a"])
def test_a_name_is_small_letters_and_figures_with_dashes(name: str) -> None:
    assert is_id(name)


@pytest.mark.parametrize("name", ["", "Slow", "slow hot", "-slow", "slow-", "a--b", "../up", "a.md", "é", "a\n"])
def test_what_is_no_name_of_a_file_is_refused(name: str) -> None:
    assert not is_id(name)
    with pytest.raises(ValueError, match="slow-hot-water"):
        skeleton("fault", name, TODAY)


def test_a_kind_that_is_not_there_is_refused() -> None:
    with pytest.raises(ValueError, match="fault, how-to, shared, range"):
        skeleton("danger", "trial", TODAY)

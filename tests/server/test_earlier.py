"""What was served before is read again when somebody asks for it, in whatever process."""

import shutil
from dataclasses import replace
from pathlib import Path

import pytest

from kb.guide import none_of
from kb.reference import Slip, heard, reference
from kb.trail import follow_trail, gone_words
from kb.walk import walk
from server.opening import open_site, remembered
from server.settings import Settings
from server.site import Site
from server.store.upgrade import migrate
from tests.builders import TODAY

STEP = "does-your-boiler-have-a-pressure-gauge"


@pytest.fixture
def here(tmp_path: Path) -> Settings:
    settings = Settings.read({})
    shutil.copytree(settings.articles, tmp_path / "articles")
    made = replace(settings, articles=tmp_path / "articles", database=f"sqlite:///{tmp_path / 'homes.db'}")
    migrate(made.database)
    return made


def served(here: Settings) -> Site:
    """A process that begins to serve what lies in the folder now."""
    return remembered(open_site(here, TODAY), here)


def said_to(site: Site) -> str:
    start = site.library.articles["low-pressure"].steps[0]
    trail = none_of(site.library)
    for _ in range(2):
        at = walk(site.library, start, trail).at
        trail = f"{trail}-{at.answers[0].token}"
    return reference(site.library, start, trail)


def reword(here: Settings, words: str, others: str) -> None:
    file = here.articles / "low-pressure.md"
    text = file.read_text(encoding="utf-8")
    assert words in text
    file.write_text(text.replace(words, others), encoding="utf-8")


def test_a_reference_of_before_keeps_every_answer_and_says_which_is_gone(here: Settings) -> None:
    before = served(here)
    said = said_to(before)
    assert list(before.earlier) == []
    reword(here, "[Yes, there is a gauge]", "[Yes, one with a needle]")
    now = served(here)

    assert heard(now.library, said).slip is Slip.CHANGED
    taken = heard(now.library, said, earlier=now.earlier)
    assert taken.slip is Slip.ANSWER_GONE
    assert "“Yes, there is a gauge” to “Does your boiler have a pressure gauge?”" in taken.gone[0]
    start = now.library.articles["low-pressure"].steps[0]
    followed = follow_trail(now.library, start, taken.trail.split("-"), earlier=now.earlier)
    assert followed.standing.at.anchor == STEP
    assert len(followed.waiting) == 1
    assert gone_words(followed.gone) == taken.gone


def test_the_library_of_now_is_none_of_before(here: Settings) -> None:
    served(here)
    assert list(served(here).earlier) == []


def test_a_library_is_read_once(here: Settings) -> None:
    served(here)
    reword(here, "[Yes, there is a gauge]", "[Yes, one with a needle]")
    earlier = served(here).earlier
    assert next(iter(earlier)) is next(iter(earlier))

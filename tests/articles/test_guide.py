"""The authors' guide is held to the program: its sample is checked, and its tables hold all that there is."""

import re
from datetime import date
from pathlib import Path

import pytest

from kb.appliance import Clears, Display, Make
from kb.article import Audience, Call, Pace
from kb.facts import FACTS, TRIED
from kb.header import Header, Kind
from kb.library import CARRY_ON, build, load
from kb.notation import read_article
from kb.notation.braces import ANSWER, END, PASSAGE, STEP
from kb.notation.ranges import COLUMNS, RangeHeader, read_range
from kb.proof import prove
from kb.ranges import check_ranges
from kb.rules import check, rules
from kb.skeletons import KINDS

ROOT = Path(__file__).parents[2]
GUIDE = (ROOT / "articles/README.md").read_text(encoding="utf-8")
RANGES = (ROOT / "articles/RANGES.md").read_text(encoding="utf-8")
TODAY = date(2026, 11, 25)


def section(heading: str, guide: str = GUIDE) -> str:
    """What stands under a `##` heading, with the headings below it."""
    return guide.split(f"\n## {heading}\n", 1)[1].split("\n## ", 1)[0]


def first_cells(heading: str, guide: str = GUIDE) -> set[str]:
    """What stands as code in the first cells of a section's tables."""
    rows = re.findall(r"^\| (.*?) \|", section(heading, guide), re.M)
    return {code for row in rows for code in re.findall(r"`([^`]+)`", row)}


def test_the_sample_is_read_and_no_rule_and_no_walk_objects() -> None:
    sample = re.search(r"```markdown\n(.*?)```", GUIDE, re.S)
    assert sample is not None
    article, findings = read_article("gauge-too-low.md", sample[1])
    books = load(ROOT / "articles/en")
    assert article is not None
    whole = build([*books.articles.values(), article], books.regions.values(), findings)

    assert list(map(str, check(whole, TODAY))) == []
    assert prove(whole).findings == ()


def test_every_finding_is_explained() -> None:
    assert first_cells("What each finding means") == set(rules())


def test_every_field_of_a_header_is_there() -> None:
    assert first_cells("The header of an article") == {
        field.alias or name for name, field in Header.model_fields.items()
    }
    assert set(RangeHeader.model_fields) <= first_cells("The header", RANGES)


def test_every_fact_has_its_values() -> None:
    rows = dict(re.findall(r"^\| `([\w-]+)` \| (.*) \|$", section("Facts"), re.M))

    assert {fact: re.findall(r"`([\w-]+)`", values) for fact, values in rows.items()} == {
        fact: list(values) for fact, values in FACTS.items()
    }


@pytest.mark.parametrize(
    ("heading", "words"),
    [
        ("Braces", STEP),
        ("Braces", ANSWER),
        ("Braces", END),
        ("Braces", tuple(Pace)),
        ("Braces", tuple(Call)),
        ("Facts", tuple(TRIED)),
        ("The header of an article", tuple(Kind)),
        ("Braces", PASSAGE),
        ("Begin", KINDS),
    ],
)
def test_every_word_of_the_notation_is_told(heading: str, words: tuple[str, ...]) -> None:
    text = section(heading)

    assert [word for word in words if word not in text] == []


@pytest.mark.parametrize(
    ("part", "audience"),
    [("Write the household's part", Audience.HOUSEHOLD), ("Write the engineer's part", Audience.ENGINEER)],
)
def test_every_end_that_an_author_may_lead_to_is_told(part: str, audience: Audience) -> None:
    # The two ends left out are reached from inserted questions and from the arrival checks alone.
    ends = {end.anchor for end in load(ROOT / "articles/en").ends() if end.audience is audience}

    told = {cell.removeprefix("ends.md#") for cell in first_cells(part) if cell.startswith("ends.md#")}
    assert told == ends - {CARRY_ON.anchor, "carry-on-with-the-fault"}


def test_the_sample_of_a_range_is_without_fault() -> None:
    sample = re.search(r"```markdown\n(.*?)```", RANGES, re.S)
    assert sample is not None
    family, findings = read_range("marlpit-d.md", sample[1])
    assert family is not None
    faults = {article.id for article in load(ROOT / "articles/en").faults()}

    assert list(map(str, (*findings, *check_ranges([family], faults)))) == []


def test_every_word_of_a_range_is_told() -> None:
    assert [word for word in (*Make, *Display, *Clears, *COLUMNS) if word not in RANGES] == []


def test_every_link_inside_the_guide_leads_somewhere() -> None:
    anchors = {
        re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-") for heading in re.findall(r"^#+ (.*)$", GUIDE, re.M)
    }
    prose = re.sub(r"```.*?```|`[^`\n]*`", "", GUIDE, flags=re.S)

    links = re.findall(r"\[[^\]]+\]\(([^)]+)\)", prose)
    assert links
    for link in links:
        assert link.removeprefix("#") in anchors if link.startswith("#") else (ROOT / "articles" / link).exists(), link


def test_every_command_in_the_guide_is_one_of_ours() -> None:
    from server.cli import app

    known = {str(command.callback.__name__) for command in app.registered_commands if command.callback}
    said = set(re.findall(r"^    tundish (\w+)", GUIDE, re.M))

    assert {"new", "write", "draw", "check", "walk", "find"} == said
    assert said <= known

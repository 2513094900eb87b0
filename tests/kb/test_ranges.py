from pathlib import Path

import pytest

from kb.library import load
from kb.ranges import (
    ENGINEER_ONLY,
    MOST_TRIES,
    NO_FAULT,
    Range,
    check_ranges,
    forbidden_words,
    load_ranges,
    unknown_categories,
)

ARTICLES = Path(__file__).parents[2] / "articles" / "en"
TEXT = """\
---
name: Any
kind: combi
display: text
reviewed: 2026-11-25
---

# Any

## Reset

Press the button once.

> Never with a smell of gas.

## Filling

Turn the key slowly.

## Codes

| Code | On the panel | Category | How it clears | Source |
|---|---|---|---|---|
| A1 | LOST | flame-loss | reset | invented |
"""


def folder(path: Path, **texts: str | bytes) -> Path:
    """A folder of ranges by name and text."""
    for name, text in texts.items():
        (path / f"{name}.md").write_bytes(text if isinstance(text, bytes) else text.encode())
    return path


def only(path: Path, text: str) -> Range:
    """The one range of a folder."""
    ranges, findings = load_ranges(folder(path, any=text))
    assert findings == ()
    return ranges["any"]


def test_every_range_of_a_folder_is_found_by_its_id(tmp_path):
    ranges, findings = load_ranges(folder(tmp_path, one=TEXT, two=TEXT))
    assert findings == ()
    assert {id: found.id for id, found in ranges.items()} == {"one": "one", "two": "two"}


def test_a_range_that_cannot_be_read_leaves_the_others(tmp_path):
    ranges, findings = load_ranges(folder(tmp_path, broken="# Nothing", latin=b"\xff\xfe", sound=TEXT))
    assert list(ranges) == ["sound"]
    assert [(finding.place.file, finding.rule) for finding in findings] == [
        ("broken.md", "header"),
        ("latin.md", "unreadable"),
    ]


def test_a_folder_that_is_not_there_holds_no_ranges(tmp_path):
    assert load_ranges(tmp_path / "none") == ({}, ())


def test_a_code_must_belong_to_an_article(tmp_path):
    found = only(tmp_path, TEXT)
    assert unknown_categories([found], ["flame-loss"]) == ()
    (finding,) = unknown_categories([found], ["overheat"])
    assert (finding.rule, finding.place.line) == ("unknown-category", 24)


@pytest.mark.parametrize("category", [NO_FAULT, ENGINEER_ONLY])
def test_a_code_that_needs_no_article_says_so(tmp_path, category):
    assert unknown_categories([only(tmp_path, TEXT.replace("flame-loss", category))], []) == ()


@pytest.mark.parametrize("written", ["Press the button once.", "Turn the key slowly."])
@pytest.mark.parametrize(
    "act", ["Take the front panel off the boiler.", "Undo the screw.", "Hold a match to it.", "Turn the gas back on."]
)
def test_words_for_a_household_never_ask_for_a_forbidden_act(tmp_path, written, act):
    (finding,) = forbidden_words([only(tmp_path, TEXT.replace(written, act))])
    assert finding.rule == "forbidden-act"
    assert act in finding.found


def test_sound_words_ask_for_nothing_forbidden(tmp_path):
    assert forbidden_words([only(tmp_path, TEXT)]) == ()


@pytest.mark.parametrize(
    ("written", "instead", "rule"),
    [
        ("flame-loss", "flame-lost", "unknown-category"),
        ("Press the button once.", "Take the front panel off the boiler.", "forbidden-act"),
        ("display: text", "display: seven-segment", "code-not-shown"),
        ("flame-loss", "no-fault", "code-clears"),
        ("flame-loss", "engineer-only", "code-clears"),
        ("display: text", "display: text\nlimits: {reset: 3}", "range-limit"),
    ],
)
def test_a_sound_range_is_met_with_silence_and_each_fault_of_one_with_a_finding(tmp_path, written, instead, rule):
    text = TEXT.replace("| A1 |", "| K1 |")
    assert check_ranges([only(tmp_path, text)], ["flame-loss"]) == ()
    (finding,) = check_ranges([only(tmp_path, text.replace(written, instead))], ["flame-loss"])
    assert finding.rule == rule


def test_a_dash_stands_for_a_display_of_words_alone(tmp_path):
    (code,) = only(tmp_path, TEXT.replace("| A1 |", "| – |")).codes
    assert (code.code, code.shown) == ("", "LOST")


@pytest.mark.parametrize("second", ["a 1", "A-1", "A1"])
def test_a_code_in_another_spelling_is_the_same_code(tmp_path, second):
    _, findings = load_ranges(folder(tmp_path, any=f"{TEXT}| {second} | FOUND | overheat | reset | invented |\n"))
    assert [(finding.rule, finding.place.line) for finding in findings] == [("codes-table", 25)]


def test_no_article_allows_more_than_the_most_that_is_safe():
    limits = [step.limit for step in load(ARTICLES).steps() if step.limit and step.limit.action]
    assert {limit.action for limit in limits} == set(MOST_TRIES)
    assert all(limit.at_most <= MOST_TRIES[limit.action] for limit in limits)

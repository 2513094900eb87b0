from pathlib import Path

import pytest

from kb.ranges import ENGINEER_ONLY, NO_FAULT, Range, forbidden_words, load_ranges, unknown_categories

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

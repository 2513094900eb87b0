import pytest

from kb.appliance import Clears, Display, Make, Range
from kb.findings import Finding
from kb.notation.ranges import read_range
from kb.prose import Shape

HEADER = """\
---
name: Any
kind: system
display: lights
limits: {reset: 1, top-up: 0}
reviewed: 2026-11-25
---
"""
TABLE = """\
| Code | On the panel | Category | How it clears | Source |
|---|---|---|---|---|
"""
TEXT = f"""{HEADER}
# Any

Words for whoever reads the file.

## Reset

Wait first.

1. Press it.
2. Let go.

> Once only.

## Filling

Turn it slowly.

## Codes

{TABLE}| A1 | RED, BLINKS | flame-loss | reset | invented |
| A2 | GREEN | no-fault | itself | invented |
"""


def sound(text: str) -> Range:
    """A range that must read without findings."""
    found, findings = read_range("ranges/any-one.md", text)
    assert found is not None
    assert findings == ()
    return found


def findings(text: str) -> tuple[Finding, ...]:
    return read_range("any.md", text)[1]


def test_a_range_is_named_after_its_file():
    assert sound(TEXT).id == "any-one"


def test_the_header_is_read():
    found = sound(TEXT)
    assert (found.name, found.kind, found.display) == ("Any", Make.SYSTEM, Display.LIGHTS)
    assert found.limits == {"reset": 1, "top-up": 0}


def test_the_sections_are_read_and_the_introduction_is_not_shown():
    found = sound(TEXT)
    assert [block.shape for block in found.reset] == [Shape.PARAGRAPH, Shape.NUMBERS, Shape.CAUTION]
    assert [block.text for block in found.filling] == ["Turn it slowly."]


def test_a_code_keeps_what_the_panel_says_and_where_it_stands():
    code = sound(TEXT).codes[0]
    assert (code.code, code.says, code.category, code.clears) == ("A1", "RED, BLINKS", "flame-loss", Clears.RESET)
    assert code.place.line == TEXT.splitlines().index("| A1 | RED, BLINKS | flame-loss | reset | invented |") + 1


@pytest.mark.parametrize(
    ("written", "instead", "rule"),
    [
        ("# Any\n", "", "title"),
        ("# Any\n", "# Another\n", "title"),
        ("## Reset", "## Restart", "range-section"),
        ("## Filling", "## Reset", "range-section"),
        ("## Reset", "### Reset", "unsupported-markdown"),
        ("Wait first.", "![](wait.png)", "unsupported-markdown"),
        ("| Code |", "| Number |", "codes-table"),
        ("| A2 |", "| A1 |", "codes-table"),
        ("| RED, BLINKS |", "| |", "codes-table"),
        ("| itself |", "| hope |", "codes-table"),
        (TABLE, "Some words.\n\n" + TABLE, "codes-table"),
        ("kind: system", "kind: stove", "header"),
        ("{reset: 1, top-up: 0}", "{reset: 4}", "header"),
        ("{reset: 1, top-up: 0}", "{kick: 1}", "header"),
        ("display: lights", "", "header"),
        ("reviewed:", "revised:", "header"),
        ("---\nname", "name", "header"),
    ],
)
def test_each_mistake_is_a_finding(written, instead, rule):
    assert TEXT.count(written) == 1
    assert rule in {finding.rule for finding in findings(TEXT.replace(written, instead))}


def test_a_limit_names_what_can_be_limited():
    (finding,) = findings(TEXT.replace("{reset: 1, top-up: 0}", "{kick: 1}"))
    assert "kick is nothing that is limited; choose from reset, top-up" in finding.found
    assert finding.place.line == 5


def test_a_section_that_lacks_leaves_the_others_readable():
    found, (finding,) = read_range("any.md", TEXT.replace("## Filling\n\nTurn it slowly.\n", ""))
    assert found is not None
    assert finding.found == "There is no section 'Filling'."
    assert (found.filling, len(found.reset), len(found.codes)) == ((), 3, 2)


def test_a_row_that_cannot_be_read_leaves_the_others_readable():
    found, _ = read_range("any.md", TEXT.replace("| reset | invented", "| kick | invented"))
    assert found is not None
    assert [code.code for code in found.codes] == ["A2"]

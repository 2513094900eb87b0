"""A library without a circle, by the rule's count, has no walk without an end, by the walk's own moves."""

from pathlib import Path
from tempfile import TemporaryDirectory

from hypothesis import given, settings
from hypothesis import strategies as st

from kb.proof import prove
from tests.kb.rules.libraries import found_by, with_household

STEPS = 4
ANYWHERE = st.sampled_from([*(f"#step-{number}" for number in range(STEPS)), "ends.md#book-a-visit"])
LIMITS = st.sampled_from(["", "at-most=1", "at-most=2", "tries=reset at-most=1", "tries=thaw at-most=2"])


@st.composite
def households(draw: st.DrawFn) -> str:
    """A few steps that lead anywhere, some of them limited."""
    written = []
    for number in range(STEPS):
        limit = draw(LIMITS)
        braces = f'{{{limit} then="{draw(ANYWHERE)}"}}\n' if limit else ""
        targets = draw(st.lists(ANYWHERE, min_size=2, max_size=3))
        answers = "\n".join(f"- [Answer {place}]({target})" for place, target in enumerate(targets))
        written.append(f"{braces}### Step {number}\n\n{answers}\n")
    return "\n".join(written)


@given(households())
@settings(max_examples=80, deadline=None)
def test_where_the_rule_is_silent_every_walk_ends(text: str) -> None:
    with TemporaryDirectory() as folder:
        library = with_household(text, Path(folder))

    endless = [
        finding for finding in prove(library).findings if "for ever" in finding.found or "circle" in finding.found
    ]

    assert found_by("loop-without-limit", library) or not endless


def test_the_circle_is_named_step_by_step_where_it_begins(tmp_path: Path) -> None:
    library = with_household(
        """
### A

- [On](#b)
- [Out](ends.md#book-a-visit)

### B

- [On](#c)
- [Out](ends.md#book-a-visit)

### C

- [Back](#a)
- [Out](ends.md#book-a-visit)
""",
        tmp_path,
    )

    (finding,) = found_by("loop-without-limit", library)

    assert "cold-boiler.md#a → cold-boiler.md#b → cold-boiler.md#c → cold-boiler.md#a" in finding.found
    assert finding.place == library.articles["cold-boiler"].steps[0].place


def test_a_circle_over_two_articles_is_one_circle(tmp_path: Path) -> None:
    library_text = """
### A

- [On](other.md)
- [Out](ends.md#book-a-visit)
"""
    other = """---
title: Another thing
kind: how-to
reviewed: 2026-11-20
sources: [common practice]
---

# Another thing

## For the household

### B

- [Back](cold-boiler.md)
- [Out](ends.md#book-a-visit)
"""
    (tmp_path / "other.md").write_text(other, encoding="utf-8")

    (finding,) = found_by("loop-without-limit", with_household(library_text, tmp_path))

    assert "cold-boiler.md#a → other.md#b → cold-boiler.md#a" in finding.found

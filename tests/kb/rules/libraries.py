"""Libraries for the tests of single rules: the samples' house with a household part of the test's own."""

from pathlib import Path

from kb.findings import Finding
from kb.library import Library, build, load
from kb.notation import read_article
from kb.rules import rules
from tests.kb.rules.samples import TODAY, Sample, settle


def with_household(text: str, folder: Path) -> Library:
    """The samples' library with these household steps."""
    settle(Sample("a-test", 0, "household", "", text), folder)
    return load(folder)


def alone(text: str) -> Library:
    """A library of one article with these household steps, whose links lead nowhere."""
    header = "---\ntitle: Alone\nkind: how-to\nreviewed: 2026-11-20\n---\n\n# Alone\n\n## For the household\n"
    article, findings = read_article("alone.md", header + text)
    assert article is not None, findings
    return build([article])


def found_by(rule: str, library: Library) -> tuple[Finding, ...]:
    """What one rule finds."""
    check = rules()[rule].check
    assert check is not None
    return tuple(check(library, TODAY))

"""No rule without a page and a sample, no finding without a rule, and silence for what is served."""

import ast
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

import kb
from kb.findings import Finding, Place
from kb.library import Library, build, load
from kb.rules import check, explain, rules
from tests.kb.rules.samples import samples

ROOT = Path(__file__).parents[3]
SOURCES = sorted(Path(kb.__path__[0]).rglob("*.py"))


def emitted() -> Iterator[str]:
    """The rule named by each finding that any module of kb makes."""
    for path in SOURCES:
        tree = ast.parse(path.read_text(encoding="utf-8"))
        constants = {
            target.id: statement.value.value
            for statement in tree.body
            if isinstance(statement, ast.Assign) and isinstance(statement.value, ast.Constant)
            for target in statement.targets
            if isinstance(target, ast.Name)
        }
        for call in (node for node in ast.walk(tree) if isinstance(node, ast.Call)):
            named = getattr(call.func, "id", getattr(call.func, "attr", ""))
            if named in {"Finding", "note"} and len(call.args) > 2 and path.name != "desk.py":
                rule = call.args[1]
                yield str(rule.value if isinstance(rule, ast.Constant) else constants[rule.id])  # type: ignore[attr-defined]


def test_every_finding_names_a_rule_and_every_rule_can_find_something() -> None:
    assert set(emitted()) == set(rules())


def test_every_rule_has_a_good_and_a_bad_sample() -> None:
    good = {sample.rule for sample in samples() if sample.good}
    bad = {sample.rule for sample in samples() if not sample.good}

    assert good == bad == set(rules())


@pytest.mark.parametrize("name", sorted(rules()))
def test_a_page_opens_with_the_rule_and_what_it_asks(name: str) -> None:
    page = explain(name)

    assert page is not None
    assert page.startswith(f"{name}: ")
    assert len(page.split("```")[0].splitlines()) >= 5


def test_there_is_no_page_for_a_rule_that_is_not_there() -> None:
    assert explain("no-such-rule") is None


def test_only_what_is_old_is_served_all_the_same() -> None:
    assert [name for name, rule in rules().items() if not rule.holds_back] == ["review-overdue"]


def test_findings_of_the_reading_come_with_those_of_the_rules_in_order() -> None:
    unread = Finding(Place("z.md", 1), "header", "There is no header.", "Write one.")
    found = check(build([], findings=[unread]), date(2026, 11, 25))

    assert unread in found
    assert list(found) == sorted(found)
    assert {finding.rule for finding in found} >= {"header", "danger-question", "carry-on", "emergency-order"}


@pytest.fixture(scope="module")
def articles() -> Library:
    return load(ROOT / "articles" / "en")


def test_the_articles_that_are_served_are_met_with_silence(articles: Library) -> None:
    read = max(article.header.reviewed for article in articles.articles.values())

    assert check(articles, read) == ()


def test_an_unread_year_is_told_and_nothing_is_held_back(articles: Library) -> None:
    read = max(article.header.reviewed for article in articles.articles.values())
    found = check(articles, read.replace(year=read.year + 2))

    assert {finding.rule for finding in found} == {"review-overdue"}
    assert not any(finding.holds_back for finding in found)

"""Markdown cases: a title, what an author wrote, and the outline it must be read as."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from kb.article import Answer, Article, Bounds, Cause, Evidence, Step
from kb.findings import in_order
from kb.notation import read_article, slug
from tests.builders import header

CASES = Path(__file__).parents[2] / "notation"
HEADER = header("fault", "This") + "\n# This\n"
NEWLINE = "\n"


def cases() -> Iterator[object]:
    for path in sorted(CASES.glob("*.md")):
        lines = path.read_text().split("\n")
        dots = [number for number, line in enumerate(lines) if line == "."]
        for first, second, third in zip(dots[::3], dots[1::3], dots[2::3], strict=True):
            name = f"{path.name}:{first} {lines[first - 1]}"
            yield pytest.param("\n".join(lines[first + 1 : second]), lines[second + 1 : third], id=name)


@pytest.mark.parametrize(("text", "expected"), list(cases()))
def test_an_article_is_read_as_its_outline(text: str, expected: list[str]) -> None:
    read, findings = read_article("this.md", HEADER + text)

    assert read is not None
    told = [f"line {each.place.line - HEADER.count(NEWLINE)}: {each.rule}" for each in in_order(findings)]
    assert told + list(outline(read)) == expected


def outline(read: Article) -> Iterator[str]:
    for step in read.steps:
        yield from outline_of_step(step)
    for block in read.card:
        yield f"card: {' | '.join(block.text.splitlines())}"
    for cause in read.causes:
        yield from outline_of_cause(cause)


def outline_of_step(step: Step) -> Iterator[str]:
    yield f"{step.audience} step {step.anchor}: {step.title}"
    for name in ("fact", "reading"):
        if getattr(step, name):
            yield f"  {name}: {getattr(step, name)}"
    if step.limit:
        yield f"  at most {step.limit.at_most} ({step.limit.action}), then {step.limit.then}"
    for block in step.body:
        yield f"  {block.shape}: {' | '.join(block.text.splitlines())}"
    for answer in step.answers:
        yield f"  answer: {answer.text} -> {answer.target}{details(answer)}"


def details(answer: Answer) -> str:
    fact = f", is {answer.fact_value}" if answer.fact_value else ""
    return fact + (f", {edges(answer.bounds)}" if answer.bounds else "")


def edges(bounds: Bounds) -> str:
    lower = [] if bounds.floor is None else [f"{'from' if bounds.floor_in else 'above'} {bounds.floor}"]
    upper = [] if bounds.ceiling is None else [f"{'to' if bounds.ceiling_in else 'below'} {bounds.ceiling}"]
    return " ".join(lower + upper)


def outline_of_cause(cause: Cause) -> Iterator[str]:
    yield f"cause: {cause.name} {cause.share:g}%" + (f", bring {', '.join(cause.bring)}" if cause.bring else "")
    for side, pieces in (("for", cause.points_to), ("against", cause.points_away)):
        yield from (f"  {side}: {evidence(piece)}" for piece in pieces)


def evidence(piece: Evidence) -> str:
    return f"{piece.answer} at {piece.step} ×{piece.strength:g}"


def test_an_answers_token_changes_with_its_words_and_its_step() -> None:
    text = "## For the household\n\n### Ask\n\n- [{}](#ask)\n"
    tokens = set()
    for words, file in (("Yes", "this.md"), ("No", "this.md"), ("Yes", "that.md")):
        read, _ = read_article(file, HEADER + text.format(words))
        assert read is not None
        tokens.add(read.steps[0].answers[0].token)

    assert len(tokens) == 3


@pytest.mark.parametrize(
    ("heading", "anchor"),
    [
        # The anchors that code-hosting sites give these headings (common practice, by their published rule).
        ("What does the gauge say?", "what-does-the-gauge-say"),
        ("Get out: smell of gas", "get-out-smell-of-gas"),
        ("It's a 3 bar valve", "its-a-3-bar-valve"),
        ("on-arrival", "on-arrival"),
    ],
)
def test_anchors_are_the_usual_ones(heading: str, anchor: str) -> None:
    assert slug(heading) == anchor


@pytest.mark.parametrize(
    ("text", "line", "found"),
    [
        ("# No header\n", 1, "no header"),
        ("---\ntitle: [\n---\n", 3, "not readable YAML"),
        ("---\n- a\n---\n", 1, "no fields"),
        ("---\ntitle: A title\nkind: fault\nreviewed: someday\n---\n", 4, "'reviewed'"),
        ("---\ntitle: A title\nkind: fault\n---\n", 1, "'reviewed': is missing"),
        ("---\ntitle: A title\nkind: fault\nreviewed: 2026-11-25\ncolour: red\n---\n", 5, "is not a field"),
        (
            "---\ntitle: A title\nkind: fault\nreviewed: 2026-11-25\nalso-said: [it says: low]\n---\n",
            5,
            "put it in quotes, above all if it holds a colon",
        ),
        ("---\ntitle: A title\nkind: fault\nreviewed: 2026-11-25\napplies: {system: [wet]}\n---\n", 5, "not a fact"),
    ],
)
def test_a_header_that_cannot_be_read_says_where_and_why(text: str, line: int, found: str) -> None:
    read, findings = read_article("this.md", text)

    assert read is None
    assert findings[0].place.line == line
    assert found in findings[0].found


def test_the_title_above_the_text_is_the_headers() -> None:
    _, findings = read_article("this.md", header("fault", "This") + "\n# That\n")

    assert [finding.rule for finding in findings] == ["title"]

"""What is written in a drawn tree beside the author's own words?"""

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from kb.article import Answer, Audience, Bounds, Call, End, Pace, Step
from kb.findings import Finding
from kb.prose import Shape, Target, words

USED_UP: Final = "When used up"
AGAIN: Final = "This step again"
NOWHERE: Final = "Leads nowhere"
BEGINS: Final = "Begins here"
UNREACHABLE: Final = "Nothing leads here"

_PART: Final[Mapping[Audience, str]] = {
    Audience.HOUSEHOLD: "the household’s part",
    Audience.ENGINEER: "the engineer’s part",
}
_PACE: Final[Mapping[Pace, str]] = {
    Pace.LEAVE: "Leave at once",
    Pace.MAKE_SAFE: "Make it safe",
    Pace.TODAY: "Today",
    Pace.THREE_DAYS: "Three days",
    Pace.ROUTINE: "When it suits",
    Pace.ADVICE: "Advice only",
}
_CALL: Final[Mapping[Call, str]] = {
    Call.FIRM: "the firm",
    Call.GAS: "the gas line",
    Call.EMERGENCY: "the emergency services",
    Call.SUPPLIER: "the supplier",
    Call.POWER_CUT: "the power cut line",
}


def heading(title: str, audience: Audience) -> str:
    """The title of a picture."""
    return f"{title}: {_PART[audience]}"


def answer(answer: Answer) -> str:
    """An answer as a label: its words, and in brackets what its braces say."""
    said = f"is {answer.fact_value}" if answer.fact_value else bounds(answer.bounds)
    return f"{answer.text} [{said}]" if said else answer.text


def bounds(bounds: Bounds | None) -> str:
    """The bounds of a reading in the words of the notation."""
    if bounds is None:
        return ""
    floor = "" if bounds.floor is None else f"{'from' if bounds.floor_in else 'above'} {_mark(bounds.floor)}"
    ceiling = "" if bounds.ceiling is None else f"{'to' if bounds.ceiling_in else 'below'} {_mark(bounds.ceiling)}"
    return f"{floor} {ceiling}".strip()


def _mark(mark: str | float) -> str:
    return mark if isinstance(mark, str) else f"{mark:g}"


def text(step: Step) -> Iterator[str]:
    """What a step says, a line for each of its paragraphs and items."""
    for block in step.body:
        for number, line in enumerate(block.lines, 1):
            sign = {Shape.BULLETS: "• ", Shape.NUMBERS: f"{number}. ", Shape.CAUTION: "Caution: "}.get(block.shape, "")
            yield sign + words(line)


def notes(step: Step, callers: Sequence[str]) -> Iterator[str]:
    """What the braces of a step say, which pages its words link to, and which other articles lead to it."""
    if step.fact:
        yield f"Asks for the fact {step.fact}"
    if step.reading:
        yield f"Reads the {step.reading}"
    if step.limit:
        what = f"Tries {step.limit.action}" if step.limit.action else "Passed"
        yield f"{what}, {_times(step.limit.at_most)} at most"
    links = dict.fromkeys(
        str(span.target) for block in step.body for line in block.lines for span in line if span.target is not None
    )
    if links:
        yield f"Its words link to {', '.join(links)}"
    if callers:
        yield f"Also reached from {', '.join(callers)}"


def _times(count: int) -> str:
    return {1: "once", 2: "twice"}.get(count, f"{count} times")


def end(end: End) -> str:
    """How soon an end says to act, and whom to call."""
    return f"{_PACE[end.pace]} · {_CALL[end.call]}"


def elsewhere(target: Target, step: Step) -> str:
    """Where another article is entered."""
    return f"{target.article}.md, at “{step.title}”" if target.anchor else f"{target.article}.md"


def marked(findings: Sequence[Finding]) -> tuple[str, ...]:
    """A line for each rule that is broken: where first, and how often."""
    lines: dict[str, list[int]] = {}
    for finding in findings:
        lines.setdefault(finding.rule, []).append(finding.place.line)
    return tuple(f"Line {min(at)}: {rule}{f', {len(at)} times' if len(at) > 1 else ''}" for rule, at in lines.items())

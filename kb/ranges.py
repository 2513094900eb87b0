"""Which ranges of appliances are there in a folder, and is what they say sound?"""

from collections.abc import Collection, Iterable, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Final

from kb.acts import forbidden_acts
from kb.appliance import ENGINEER_ONLY, NO_FAULT, Clears, Code, Display, Make, Range
from kb.codes import normalise
from kb.findings import Finding, Place, in_order
from kb.notation.ranges import read_range
from kb.segments import SHAPES

__all__ = [
    "ENGINEER_ONLY",
    "MOST_TRIES",
    "NO_FAULT",
    "Clears",
    "Code",
    "Display",
    "Make",
    "Range",
    "check_ranges",
    "forbidden_words",
    "load_ranges",
    "unknown_categories",
]

# Common practice; the articles keep to the same numbers.
MOST_TRIES: Final[Mapping[str, int]] = MappingProxyType(
    {"reset": 2, "top-up": 1, "thaw": 2, "breaker": 1, "meter-restore": 1, "water-release": 2, "relight": 2}
)
"""How often each thing may be tried at the very most, whatever an appliance allows."""


def load_ranges(folder: Path) -> tuple[Mapping[str, Range], tuple[Finding, ...]]:
    """Read every range in a folder, by its id; a file that cannot be read is a finding like any other.

    A firm may have written none yet, so a folder that is not there holds none.
    """
    ranges: dict[str, Range] = {}
    findings: list[Finding] = []
    for path in sorted(folder.glob("*.md")):
        try:
            text = path.read_text(encoding="utf-8")
        except (OSError, UnicodeDecodeError):
            remedy = "Save it as UTF-8 text that this account may read."
            findings.append(Finding(Place(path.name, 1), "unreadable", "The file cannot be read.", remedy))
            continue
        found, wrong = read_range(path.name, text)
        findings += wrong
        if found is not None:
            ranges[found.id] = found
    return ranges, tuple(findings)


def check_ranges(ranges: Iterable[Range], categories: Collection[str]) -> tuple[Finding, ...]:
    """Everything that is wrong with ranges that could be read, `categories` being the faults that have an article."""
    found = tuple(ranges)
    return in_order(
        (
            *unknown_categories(found, categories),
            *forbidden_words(found),
            *codes_not_shown(found),
            *contradictions(found),
            *limits_too_high(found),
        )
    )


def codes_not_shown(ranges: Iterable[Range]) -> tuple[Finding, ...]:
    """A finding for every code that a seven-segment display has no shapes for."""
    return tuple(
        Finding(
            code.place,
            "code-not-shown",
            f"The display of a {family.name} cannot show {code.shown!r}.",
            "Look at the appliance's instructions again, or name the display text.",
        )
        for family in ranges
        if family.display is Display.SEVEN_SEGMENT
        for code in family.codes
        if not code.code or not set(normalise(code.code)) - {"."} <= set(SHAPES)
    )


def contradictions(ranges: Iterable[Range]) -> tuple[Finding, ...]:
    """A finding for every code whose category forbids the way it is said to clear."""
    return tuple(
        Finding(
            code.place,
            "code-clears",
            f"The code {code.shown} is {code.category} and clears by {code.clears}.",
            f"Let {ENGINEER_ONLY} clear by an engineer, and {NO_FAULT} by itself or an engineer.",
        )
        for family in ranges
        for code in family.codes
        if (code.category == ENGINEER_ONLY and code.clears is not Clears.ENGINEER)
        or (code.category == NO_FAULT and code.clears is Clears.RESET)
    )


def limits_too_high(ranges: Iterable[Range]) -> tuple[Finding, ...]:
    """A finding for every limit that is above what any appliance is allowed."""
    return tuple(
        Finding(
            Place(family.file, 1),
            "range-limit",
            f"The range allows {at_most} times {action}, and {MOST_TRIES[action]} is the most that is safe.",
            f"Write {MOST_TRIES[action]} or less, or leave it out.",
        )
        for family in ranges
        for action, at_most in family.limits.items()
        if at_most > MOST_TRIES[action]
    )


def unknown_categories(ranges: Iterable[Range], categories: Collection[str]) -> tuple[Finding, ...]:
    """A finding for every code whose category is neither one of these faults nor one that needs no article."""
    return tuple(
        Finding(
            code.place,
            "unknown-category",
            f"The code {code.shown} belongs to {code.category!r}, and no article does.",
            f"Name the article of a fault, or {NO_FAULT}, or {ENGINEER_ONLY}.",
        )
        for family in ranges
        for code in family.codes
        if code.category not in (NO_FAULT, ENGINEER_ONLY, *categories)
    )


def forbidden_words(ranges: Iterable[Range]) -> tuple[Finding, ...]:
    """A finding for every reset or filling text that asks a household for an act it may never do."""
    return tuple(
        Finding(
            blocks[0].place,
            "forbidden-act",
            f"The words for a household ask it to {act}: {sentence!r}",
            "Leave that to an engineer, and say so.",
        )
        for family in ranges
        for blocks in (family.reset, family.filling)
        for sentence, act in forbidden_acts("\n".join(block.text for block in blocks))
    )

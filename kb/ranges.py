"""A folder of ranges of appliances, with every finding in it."""

from collections.abc import Collection, Iterable, Mapping
from pathlib import Path

from kb.acts import forbidden_acts
from kb.appliance import ENGINEER_ONLY, NO_FAULT, Clears, Code, Display, Make, Range
from kb.findings import Finding, Place
from kb.notation.ranges import read_range

__all__ = [
    "ENGINEER_ONLY",
    "NO_FAULT",
    "Clears",
    "Code",
    "Display",
    "Make",
    "Range",
    "forbidden_words",
    "load_ranges",
    "unknown_categories",
]


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


def unknown_categories(ranges: Iterable[Range], categories: Collection[str]) -> tuple[Finding, ...]:
    """A finding for every code whose category is neither one of these faults nor one that needs no article."""
    return tuple(
        Finding(
            code.place,
            "unknown-category",
            f"The code {code.code} belongs to {code.category!r}, and no article does.",
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

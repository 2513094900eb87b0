"""A folder of ranges of appliances, with every finding in it."""

from collections.abc import Collection, Iterable, Mapping
from pathlib import Path

from kb.appliance import NO_FAULT, Clears, Code, Display, Make, Range
from kb.findings import Finding, Place
from kb.notation.ranges import read_range

__all__ = ["NO_FAULT", "Clears", "Code", "Display", "Make", "Range", "load_ranges", "unknown_categories"]


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
    """A finding for every code whose category is neither one of these faults nor no fault at all."""
    return tuple(
        Finding(
            code.place,
            "unknown-category",
            f"The code {code.code} belongs to {code.category!r}, and no article does.",
            f"Name the article of a fault, or {NO_FAULT}.",
        )
        for range in ranges
        for code in range.codes
        if code.category != NO_FAULT and code.category not in categories
    )

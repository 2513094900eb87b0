"""The samples in the rules' manual pages, each put into a small whole library and read from the disk."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Final

from kb.findings import Finding
from kb.firm import read_firm
from kb.library import load
from kb.proof import prove
from kb.ranges import check_ranges, load_ranges
from kb.rules import check, rules

TODAY: Final = date(2026, 12, 1)
SAMPLES: Final = Path(__file__).parents[2] / "samples"

_FENCE = re.compile(
    r"^```(?:good|bad (?P<count>\d+))(?: in (?P<place>[\w-]+)(?: (?P<file>\S+))?)?\n(?P<text>.*?)^```$", re.M | re.S
)
_FIELD = re.compile(r"(?P<name>[\w-]+)\s*[:=]")
_TABLE = re.compile(r"\[+(?P<name>[\w.-]+)\]+")
_FIELD_BY_FIELD: Final = {"header", "region", "firm", "range-header"}


@dataclass(frozen=True, slots=True)
class Sample:
    """One fenced block: the rule whose page it is on, where it goes, and how often the rule must find something."""

    rule: str
    count: int
    place: str
    file: str
    text: str

    def __str__(self) -> str:
        return f"{self.rule}-{'bad' if self.count else 'good'}-in-{self.place}"

    @property
    def good(self) -> bool:
        return self.count == 0


def samples() -> Iterator[Sample]:
    """Every sample of every rule."""
    for name, rule in rules().items():
        for fence in _FENCE.finditer(rule.page):
            place = fence["place"] or "household"
            yield Sample(name, int(fence["count"] or 0), place, fence["file"] or "", fence["text"])


def findings_of(sample: Sample, folder: Path) -> tuple[Finding, ...]:
    """All that is found, and proved, of the library with the sample in it, its ranges and its firm."""
    settle(sample, folder)
    library = load(folder)
    ranges, in_ranges = load_ranges(folder / "ranges")
    _, in_firm = read_firm("firm.toml", (folder / "firm.toml").read_text(encoding="utf-8"))
    categories = {article.id for article in library.faults()}
    return (
        *check(library, TODAY),
        *prove(library).findings,
        *in_ranges,
        *check_ranges(ranges.values(), categories),
        *in_firm,
    )


def settle(sample: Sample, folder: Path) -> None:
    """Write the library with the sample in its place."""
    pieces = {path.stem: path.read_text(encoding="utf-8") for path in (SAMPLES / "defaults").iterdir()}
    if sample.place in pieces:
        own = pieces[sample.place]
        pieces[sample.place] = merged(own, sample.text) if sample.place in _FIELD_BY_FIELD else sample.text
    for path in sorted((SAMPLES / "library").rglob("*.*")):
        to = folder / path.relative_to(SAMPLES / "library")
        to.parent.mkdir(parents=True, exist_ok=True)
        to.write_text(
            re.sub(r"<<([\w-]+)>>", lambda found: pieces[found[1]].strip(), path.read_text()), encoding="utf-8"
        )
    if sample.place == "file":
        (folder / sample.file).write_text(sample.text, encoding="utf-8")
    elif sample.place == "bytes":
        (folder / sample.file).write_bytes(bytes.fromhex(sample.text))
    elif sample.place not in pieces:
        raise ValueError(f"a sample of {sample.rule} is in {sample.place!r}; expected one of {', '.join(pieces)}")


def merged(own: str, sample: str) -> str:
    """The template's fields with those of the sample in the place of their namesakes."""
    fields = {**_fields(own), **_fields(sample)}
    plain_first = sorted(fields.items(), key=lambda field: field[1].startswith("["))
    return "\n".join(text for _, text in plain_first)


def _fields(text: str) -> dict[str, str]:
    """The text of each top field or table, by name."""
    fields: dict[str, str] = {}
    name, in_table = "", False
    for line in text.splitlines():
        table = _TABLE.match(line)
        begins = table or (None if in_table else _FIELD.match(line))
        if begins:
            name, in_table = begins["name"], bool(table)
        fields[name] = f"{fields[name]}\n{line}" if name in fields else line
    return fields

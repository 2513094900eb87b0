"""A range of appliances from its markdown."""

import re
from collections.abc import Iterator
from typing import Annotated, Final

from markdown_it.tree import SyntaxTreeNode
from pydantic import BaseModel, ConfigDict, Field, field_validator

from kb.appliance import Clears, Code, Display, Make, Range
from kb.facts import TRIED
from kb.findings import Finding, Place
from kb.header import Reviewed, Words
from kb.notation.desk import Desk
from kb.notation.front import read_header
from kb.notation.markdown import block_of, line_of, parse, plain
from kb.notation.placeholders import note_placeholders
from kb.prose import Block

COLUMNS: Final = ("Code", "On the panel", "Category", "How it clears", "Source")
"""The columns of the table of codes."""

_SEPARATORS: Final = re.compile(r"[\s\-–—/.:]+")
_WORDS_ONLY: Final = ("-", "–", "—")

_SECTIONS: Final = ("Reset", "Filling", "Codes")


class RangeHeader(BaseModel):
    """The fields at the top of a range's file.

    `limits` is how often the range's own instructions let a household try something, where they say so.
    """

    model_config = ConfigDict(extra="forbid", frozen=True)

    name: Words
    kind: Make
    display: Display
    reviewed: Reviewed
    sources: tuple[Words, ...] = ()
    limits: dict[str, Annotated[int, Field(ge=0, le=3)]] = Field(default_factory=dict)

    @field_validator("limits")
    @classmethod
    def _only_what_is_limited(cls, limits: dict[str, int]) -> dict[str, int]:
        for action in limits:
            if action not in TRIED:
                raise ValueError(f"{action} is nothing that is limited; choose from {', '.join(TRIED)}")
        return limits


def read_range(file: str, text: str) -> tuple[Range | None, tuple[Finding, ...]]:
    """Read one markdown file, `file` being its name inside the folder of ranges and its stem the range's id.

    A range comes back whenever its header could be read; each thing in it that could not is a finding.
    """
    desk = Desk(file)
    note_placeholders(text, desk)
    root = parse(text)
    header = read_header(root, RangeHeader, desk)
    if header is None:
        return None, tuple(desk.findings)
    if header.reviewed is None:
        unread = "No registered engineer has read the range yet."
        desk.note(1, "never-reviewed", unread, "Have it read, then write the day.")
    name = file.removesuffix(".md").rsplit("/", 1)[-1]
    sections = _sections(root, header.name, desk)
    found = Range(
        id=name,
        name=header.name,
        kind=header.kind,
        display=header.display,
        limits=header.limits,
        reset=_blocks(sections["Reset"], name, desk),
        filling=_blocks(sections["Filling"], name, desk),
        codes=_codes(sections["Codes"], desk),
        file=file,
    )
    return found, tuple(desk.findings)


def _sections(root: SyntaxTreeNode, name: str, desk: Desk) -> dict[str, list[SyntaxTreeNode]]:
    """The file cut at its headings; an introduction above them is for whoever reads the file alone."""
    sections: dict[str, list[SyntaxTreeNode]] = {}
    titles: list[str] = []
    current: list[SyntaxTreeNode] = []
    for node in root.children:
        match node.tag:
            case "h1":
                titles.append(plain(node))
            case "h2":
                current = _section(node, sections, desk)
            case "h3" | "h4" | "h5" | "h6":
                desk.note(line_of(node), "unsupported-markdown", "A heading under a section.", "Use `##`.")
            case _ if node.type != "front_matter":
                current.append(node)
    if titles != [name]:
        found = f"The title above the text is {titles[0]!r}." if titles else "There is no title above the text."
        desk.note(1, "title", found, "Write one `# Title` under the header, in the same words as its `name`.")
    for title in _SECTIONS:
        if title not in sections:
            desk.note(1, "range-section", f"There is no section {title!r}.", f"Write `## {title}`.")
    return {title: sections.get(title, []) for title in _SECTIONS}


def _section(heading: SyntaxTreeNode, sections: dict[str, list[SyntaxTreeNode]], desk: Desk) -> list[SyntaxTreeNode]:
    title = plain(heading)
    if title not in _SECTIONS or title in sections:
        found = f"The section {title!r} {'stands twice' if title in sections else 'is not one of a range'}."
        desk.note(line_of(heading), "range-section", found, f"A range has {', '.join(_SECTIONS)}, each once.")
        return []
    sections[title] = []
    return sections[title]


def _blocks(nodes: list[SyntaxTreeNode], name: str, desk: Desk) -> tuple[Block, ...]:
    return tuple(block for node in nodes if (block := block_of(node, name, desk)))


def _codes(nodes: list[SyntaxTreeNode], desk: Desk) -> tuple[Code, ...]:
    codes: dict[str, Code] = {}
    for node in nodes:
        if node.type != "table":
            found = f"A {node.type.replace('_', ' ')} stands among the codes."
            desk.note(line_of(node), "codes-table", found, "Keep to one table.")
            continue
        for code in _rows(node, desk):
            # What differs in case and separators only is one code to whoever types it.
            known = codes.setdefault(_SEPARATORS.sub("", code.shown.upper()), code)
            if known is not code:
                found = f"The code {code.shown} stands twice: it was {known.shown} in line {known.place.line}."
                desk.note(code.place.line, "codes-table", found, "Keep the row that holds.")
    return tuple(codes.values())


def _rows(table: SyntaxTreeNode, desk: Desk) -> Iterator[Code]:
    head, *bodies = table.children
    columns = tuple(plain(cell).strip() for cell in head.children[0].children)
    if columns != COLUMNS:
        found, remedy = f"The columns are {', '.join(columns)}.", f"Name them {', '.join(COLUMNS)}."
        desk.note(line_of(table), "codes-table", found, remedy)
        return
    for body in bodies:
        for row in body.children:
            code = _code(row, desk)
            if code is not None:
                yield code


def _code(row: SyntaxTreeNode, desk: Desk) -> Code | None:
    cells = [plain(cell).strip() for cell in row.children]
    line = line_of(row)
    lacking = [column for column, cell in zip(COLUMNS, cells, strict=True) if not cell]
    if lacking:
        desk.note(line, "codes-table", f"The row {cells[0]!r} lacks {', '.join(lacking)}.", "Fill every cell.")
        return None
    written, says, category, clears, source = cells
    written = "" if written in _WORDS_ONLY else written
    if clears not in set(Clears):
        found = f"The code {written or says} clears by {clears!r}."
        desk.note(line, "codes-table", found, f"Choose from {', '.join(Clears)}.")
        return None
    return Code(written, says, category, Clears(clears), source, Place(desk.file, line))

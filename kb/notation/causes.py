"""The table of likely causes, with the evidence that points to each."""

import re
from collections.abc import Iterator
from typing import Final

from markdown_it.tree import SyntaxTreeNode

from kb.article import Cause, Evidence
from kb.findings import Place
from kb.notation.desk import Desk
from kb.notation.markdown import line_of, plain, target_of

COLUMNS: Final = ("Cause", "Share", "Bring", "Points to it", "Points away")
STRENGTHS: Final = (1.0, 20.0)
_STRENGTH = re.compile(r"\s*[×x]\s*(\d+(?:\.\d+)?)\s*[;,]?\s*")


def causes_of(table: SyntaxTreeNode, article: str, desk: Desk) -> tuple[Cause, ...]:
    """Every row that can be read; what cannot be is a finding."""
    head, *bodies = table.children
    columns = tuple(plain(cell).strip() for cell in head.children[0].children)
    if columns != COLUMNS:
        desk.note(
            line_of(table),
            "causes-table",
            f"The columns are {', '.join(columns)}.",
            f"Name them {', '.join(COLUMNS)}.",
        )
        return ()
    return tuple(cause for body in bodies for row in body.children if (cause := _cause(row, article, desk)))


def _cause(row: SyntaxTreeNode, article: str, desk: Desk) -> Cause | None:
    name, share, bring, points_to, points_away = row.children
    line = line_of(row)
    try:
        percent = float(plain(share))
    except ValueError:
        desk.note(line, "causes-table", f"The share {plain(share)!r} is not a figure.", "Give the share in percent.")
        return None
    return Cause(
        name=plain(name).strip(),
        share=percent,
        bring=tuple(part.strip() for part in plain(bring).split(",") if part.strip(" -–")),
        points_to=tuple(_evidence(points_to, article, line, desk)),
        points_away=tuple(_evidence(points_away, article, line, desk)),
        place=Place(desk.file, line),
    )


def _evidence(cell: SyntaxTreeNode, article: str, line: int, desk: Desk) -> Iterator[Evidence]:
    parts = list(cell.children[0].children) if cell.children else []
    while parts:
        link, *parts = parts
        written = parts.pop(0).content if parts and parts[0].type == "text" else ""
        target = target_of(str(link.attrs.get("href", "")), article) if link.type == "link" else None
        strength = _STRENGTH.fullmatch(written)
        if target is None or strength is None or not STRENGTHS[0] < float(strength[1]) <= STRENGTHS[1]:
            desk.note(
                line,
                "causes-table",
                f"The evidence {plain(link).strip()}{written.rstrip()!s} cannot be read.",
                "Write [the answer's words](#its-step) ×6, with a strength over 1 and up to 20; part two by `;`.",
            )
            continue
        yield Evidence(target, plain(link).strip(), float(strength[1]), Place(desk.file, line))

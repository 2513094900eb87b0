"""How is a table of homes read, and everything told that is wrong with its shape?"""

import csv
import io
from collections.abc import Iterator, Mapping, Sequence, Set
from typing import Final

from rapidfuzz import fuzz, process

from kb import keys
from kb.listing.columns import COLUMNS, name_of, path_of
from kb.listing.guard import unguarded
from kb.listing.lines import Listing, Problem, Row

_SEPARATORS: Final = (",", ";", "\t")
_UNREADABLE: Final = "\ufffd"
_ALIKE: Final = 70
_PLATE: Final = "appliances[0].plate"


def decoded(content: bytes) -> str:
    """The words of a file; what is not UTF-8 becomes signs that `read_listing` tells of."""
    return content.decode("utf-8-sig", "replace")


def read_listing(text: str) -> Listing:
    """Read a table of homes, the names of its columns in its first row.

    It may have commas, semicolons or tabs between cells, which its first row tells.
    """
    text = text.removeprefix("\ufeff")
    problems = list(_undecoded(text))
    head, *lines = [*_lines(text, problems)] or [[]]
    paths = _header(head, problems)
    if not lines and not problems:
        problems.append(Problem(2, "", "a home", "nothing", "Write one home in each row under the names."))
    rows = list(_rows(lines, paths, problems, named={place for place, name in enumerate(head) if name}))
    _refuse_nameless(paths, rows, problems)
    return Listing(tuple(rows), tuple(problems))


def _undecoded(text: str) -> Iterator[Problem]:
    for number, line in enumerate(text.splitlines(), 1):
        if _UNREADABLE in line:
            next_step = "Save it again as CSV in UTF-8, and choose that file."
            yield Problem(number, "", "letters in UTF-8", "signs that are not", next_step)
            return


def _lines(text: str, problems: list[Problem]) -> Iterator[list[str]]:
    separator = _separator(text)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    number = 0
    try:
        for number, cells in enumerate(reader, 1):  # noqa: B007 - told below if the next line cannot be read
            yield [unguarded(cell.strip()) for cell in cells]
    except csv.Error:
        next_step = "Look for a quotation mark without its other half."
        problems.append(Problem(number + 1, "", "cells that end where they should", "one that does not", next_step))


def _separator(text: str) -> str:
    """The sign between cells by which most columns have a name that there is."""
    first = text.partition("\n")[0]

    def known(separator: str) -> int:
        return sum(path_of(name) is not None for name in first.replace('"', "").split(separator))

    return max(_SEPARATORS, key=known)


def _header(names: Sequence[str], problems: list[Problem]) -> Mapping[int, str]:
    """The field of each column by its place in the row."""
    paths: dict[int, str] = {}
    for place, name in enumerate(names):
        path = path_of(name)
        if path is None and name:
            problems.append(Problem(1, name, "the name of a column", repr(name), _did_you_mean(name)))
        elif path in paths.values():
            problems.append(Problem(1, name, "each column once", f"{name!r} again", "Keep one of the two."))
        elif path is not None:
            paths[place] = path
    if not names:
        problems.append(Problem(1, "", "the names of the columns", "nothing", "Begin with the template."))
    return paths


def _did_you_mean(name: str) -> str:
    known = [name_of(column.path.replace("[n]", "[0]").replace("[m]", "[0]")) for column in COLUMNS]
    found = process.extractOne(name, known, scorer=fuzz.WRatio, score_cutoff=_ALIKE)
    return f"Did you mean {found[0]}?" if found else "Take the column out, or use a name from the list of columns."


def _rows(
    lines: Sequence[Sequence[str]], paths: Mapping[int, str], problems: list[Problem], named: Set[int]
) -> Iterator[Row]:
    first: dict[str, int] = {}
    for number, cells in enumerate(lines, 2):
        if not any(cells):
            continue
        written = {path: cells[place] if place < len(cells) else "" for place, path in paths.items()}
        problems.extend(_beyond(number, cells, named))
        typed, version = written.pop("key", ""), written.pop("version", "")
        key = keys.tidy(typed) or ""
        if typed and not key:
            found = "Read it again from the card, or leave it empty for a new home."
            problems.append(Problem(number, "Key", "a key as it is printed", repr(typed), found))
        elif key and first.setdefault(key, number) != number:
            found = f"the key of row {first[key]} again"
            problems.append(Problem(number, "Key", "each home once", found, "Keep one of the two rows."))
        yield Row(number, key, written, version)


def _beyond(number: int, cells: Sequence[str], named: Set[int]) -> Iterator[Problem]:
    """Cells with something in them where no column has a name."""
    for place, words in enumerate(cells):
        if words and place not in named:
            next_step = "Name the column, or empty the cell; perhaps a sign between cells is one too many."
            yield Problem(
                number, f"column {place + 1}", "nothing, since the column has no name", repr(words), next_step
            )


def _refuse_nameless(paths: Mapping[int, str], rows: Sequence[Row], problems: list[Problem]) -> None:
    """A new home needs its appliance's plate: told once where the whole column is missing."""
    if problems or _PLATE in paths.values():
        return
    if any(not row.key for row in rows):
        next_step = "Add the column, or give the key of a home that there is."
        problems.append(Problem(1, name_of(_PLATE), "this column for new homes", "no such column", next_step))

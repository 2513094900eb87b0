"""How are homes written as a table?"""

import csv
import io
from collections.abc import Iterable, Iterator

from kb.listing.columns import TEMPLATE, in_order, name_of
from kb.listing.guard import guarded
from kb.register import Record, version_of, written

BYTE_ORDER_MARK = "\ufeff"
"""By this a spreadsheet knows that the file is UTF-8."""


def listing(records: Iterable[Record], region: str) -> Iterator[str]:
    """The lines of a table of homes as RFC 4180 has them, the names of the columns first.

    There are the usual columns, and those that some home has something in, and by which version it is told when
    somebody changed a home since.
    """
    rows = [{**fields, "version": version_of(fields)} for fields in (written(each, region) for each in records)]
    columns = in_order({*TEMPLATE, "version", *(path for row in rows for path in row)})
    yield BYTE_ORDER_MARK + _line(name_of(path) for path in columns)
    yield from (_line(guarded(row.get(path, "")) for path in columns) for row in rows)


def _line(cells: Iterable[str]) -> str:
    into = io.StringIO()
    csv.writer(into, lineterminator="\r\n").writerow(cells)
    return into.getvalue()

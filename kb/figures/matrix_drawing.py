"""How is a matrix drawn so that its diagonal is read at a glance and every number by itself?"""

from typing import Final

from kb.drawing.letters import wrapped
from kb.figures.figure import Matrix, percent
from kb.figures.sheet import FAINT, INK, SMALL, SOFT, WIDTH, Rect, Sheet

_LABELS: Final = 112.0
_EDGE: Final = 42.0
_TOP: Final = 32.0
_HIGH: Final = 30.0


def draw_matrix(name: str, matrix: Matrix) -> Sheet:
    """Rows are numbered, and columns carry the rows' numbers, so that no word stands on its head."""
    rows, across = len(matrix.cells), len(matrix.cells[0]) if matrix.cells else 1
    sheet = Sheet(name, _TOP + _HIGH * rows + 4)
    wide = (WIDTH - _LABELS - _EDGE) / across
    for column in range(across):
        head = "…" if column == across - 1 else f"{column + 1}"
        sheet.text(_LABELS + wide * (column + 0.5), _TOP - 8, head, size=SMALL, at="center")
    for number, words in enumerate(wrapped(matrix.edge_words, _EDGE, SMALL)):
        sheet.text(WIDTH, 7 + number * 13, words, size=SMALL, at="right", strong=True)
    sheet.text(0, _TOP - 8, "It was …", size=SMALL, colour=SOFT)
    sheet.text(_LABELS, 7, "expected first …", size=SMALL, colour=SOFT)
    _grid(sheet, rows, across, wide)
    for number, row in enumerate(matrix.cells):
        middle = _TOP + _HIGH * (number + 0.5)
        head = f"{number + 1}  " if number < across - 1 else ""
        _label(sheet, f"{head}{matrix.labels[number]}", middle)
        _cells(sheet, row, number, wide)
        point = matrix.edge[number]
        sheet.text(WIDTH, middle, percent(point.part, point.whole), at="right", strong=True)
    return sheet


def _label(sheet: Sheet, words: str, middle: float) -> None:
    lines = wrapped(words, _LABELS - 6, SMALL)
    lines = (lines[0], f"{lines[1]} …") if len(lines) > 2 else lines
    for number, line in enumerate(lines):
        sheet.text(0, middle + (number - (len(lines) - 1) / 2) * 12.5, line, size=SMALL)


def _grid(sheet: Sheet, rows: int, across: int, wide: float) -> None:
    right, bottom = _LABELS + wide * across, _TOP + _HIGH * rows
    for row in range(rows + 1):
        sheet.line([(_LABELS, _TOP + _HIGH * row), (right, _TOP + _HIGH * row)], width=0.5, colour=FAINT)
    for column in range(across + 1):
        sheet.line([(_LABELS + wide * column, _TOP), (_LABELS + wide * column, bottom)], width=0.5, colour=FAINT)


def _cells(sheet: Sheet, row: tuple[int, ...], number: int, wide: float) -> None:
    """Each number, and under it a bar for its share of the row; what was expected rightly is framed."""
    top, total = _TOP + _HIGH * number, sum(row)
    bars: list[Rect] = []
    for column, cell in enumerate(row):
        right = column == number and number < len(row) - 1
        left = _LABELS + wide * column
        if cell:
            sheet.text(left + wide / 2, top + 11, f"{cell}", size=SMALL, at="center", strong=right)
            bars.append((left + 3, top + 21, (wide - 6) * cell / total, 5))
        if right:
            sheet.boxes([(left, top, wide, _HIGH)], fill=None, edge=INK, width=1.8)
    sheet.boxes(bars)

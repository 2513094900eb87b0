"""Where does each card lie on a sheet of A4, so that fronts and backs meet when it is printed on both sides?

A sheet stands upright and is turned over on its long edge, which every printer does unasked.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from kb.card.sizes import BOTH, FORMATS, Side, Size

A4: Final = (210.0, 297.0)
"""The sheet in millimetres (ISO 216)."""

_MARK: Final = 5.0
_CLEAR: Final = 1.0
_EDGE: Final = 5.0
_ROOM_OUTSIDE: Final = _MARK + _CLEAR + 4.0

Line = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Grid:
    """How many cards lie side by side and one below the other, and whether they lie on their side."""

    columns: int
    rows: int
    lying: bool = False


GRIDS: Final[Mapping[Size, Grid]] = {"a6": Grid(2, 2), "id1": Grid(2, 5), "a5": Grid(1, 2, lying=True)}


@dataclass(frozen=True, slots=True)
class Cell:
    """Where one side of a card lies: its upper left corner, its extent, and by how much it is turned.

    A card that lies has its head at the left of the sheet's face, so at the right of its other side.
    """

    x: float
    y: float
    width: float
    height: float
    turn: int


def up(size: Size) -> int:
    """How many cards of a size one sheet holds."""
    return GRIDS[size].columns * GRIDS[size].rows


def cells(size: Size) -> Mapping[Side, tuple[Cell, ...]]:
    """Where the sides of a sheet's cards lie, in their order: the backs mirrored from left to right."""
    return {side: tuple(_cells(size, side)) for side in BOTH}


def _cells(size: Size, side: Side) -> Iterator[Cell]:
    grid = GRIDS[size]
    width, height = _extent(size)
    left, top = _origin(size)
    for row in range(grid.rows):
        for column in range(grid.columns):
            across = column if side == "front" else grid.columns - 1 - column
            turn = 0 if not grid.lying else -90 if side == "front" else 90
            yield Cell(left + across * width, top + row * height, width, height, turn)


def _extent(size: Size) -> tuple[float, float]:
    width, height = FORMATS[size].page
    return (height, width) if GRIDS[size].lying else (width, height)


def _origin(size: Size) -> tuple[float, float]:
    grid, (width, height) = GRIDS[size], _extent(size)
    return (A4[0] - grid.columns * width) / 2, (A4[1] - grid.rows * height) / 2


def cut_marks(size: Size) -> tuple[Line, ...]:
    """The strokes that show where to cut, each from one point to another.

    They stand outside the cards where the sheet has room; where cards fill it, they lie on the cuts themselves,
    at the sheet's edges and where cuts cross, in the margins of the cards.
    """
    grid, (width, height), (left, top) = GRIDS[size], _extent(size), _origin(size)
    downwards = [left + n * width for n in range(grid.columns + 1)]
    across = [top + n * height for n in range(grid.rows + 1)]
    upright = [(x, start, x, end) for x in _inside(downwards, A4[0]) for start, end in _strokes(across, A4[1])]
    level = [(start, y, end, y) for y in _inside(across, A4[1]) for start, end in _strokes(downwards, A4[0])]
    return (*upright, *level)


def _inside(cuts: list[float], extent: float) -> list[float]:
    """The cuts that are not the sheet's own edge."""
    return [cut for cut in cuts if _CLEAR < cut < extent - _CLEAR]


def _strokes(crossing: list[float], extent: float) -> Iterator[tuple[float, float]]:
    """From where to where a cut is marked, given the cuts that it crosses."""
    first, last = crossing[0], crossing[-1]
    if first >= _ROOM_OUTSIDE:
        yield first - _CLEAR - _MARK, first - _CLEAR
        yield last + _CLEAR, last + _CLEAR + _MARK
        return
    yield _EDGE, _EDGE + 2 * _MARK
    for cut in _inside(crossing, extent):
        yield cut - _MARK, cut + _MARK
    yield extent - _EDGE - 2 * _MARK, extent - _EDGE

"""Where cards lie on a sheet, held against ISO 216 and ISO/IEC 7810 and against a sheet turned over by hand."""

from itertools import combinations

import pytest

from kb.card.sheet import A4, GRIDS, cells, cut_marks, up
from kb.card.sizes import FORMATS

MILLIMETRES = {"a6": (105, 148), "id1": (85.60, 53.98), "a5": (148, 210)}
"""A6 and A5 by ISO 216; a bank card by ISO/IEC 7810, ID-1."""


@pytest.mark.parametrize("size", FORMATS)
def test_each_size_is_the_standards_own(size):
    assert FORMATS[size].page == MILLIMETRES[size]


@pytest.mark.parametrize(("size", "many"), [("a6", 4), ("id1", 10), ("a5", 2)])
def test_a_sheet_holds_as_many_as_fit(size, many):
    assert up(size) == many
    assert len(cells(size)["front"]) == len(cells(size)["back"]) == many


@pytest.mark.parametrize("size", FORMATS)
def test_turned_over_on_its_long_edge_every_back_lies_behind_its_front(size):
    for front, back in zip(cells(size)["front"], cells(size)["back"], strict=True):
        assert A4[0] - (back.x + back.width) == pytest.approx(front.x)
        assert (back.y, back.width, back.height) == pytest.approx((front.y, front.width, front.height))


@pytest.mark.parametrize("size", FORMATS)
def test_the_head_of_a_back_lies_behind_the_head_of_its_front(size):
    """Turned over from left to right, what points left then points right."""
    mirrored = {0: 0, -90: 90}
    turns = zip(cells(size)["front"], cells(size)["back"], strict=True)
    assert all(mirrored[front.turn] == back.turn for front, back in turns)


@pytest.mark.parametrize("size", FORMATS)
@pytest.mark.parametrize("side", ["front", "back"])
def test_no_two_cards_overlap_and_none_leaves_the_sheet(size, side):
    for cell in cells(size)[side]:
        assert cell.x >= 0
        assert cell.y >= 0
        assert cell.x + cell.width <= A4[0] + 1e-9
        assert cell.y + cell.height <= A4[1] + 1e-9
    for one, other in combinations(cells(size)[side], 2):
        beside = abs(one.x - other.x) >= one.width - 1e-9
        assert beside or abs(one.y - other.y) >= one.height - 1e-9


@pytest.mark.parametrize("size", FORMATS)
def test_every_mark_lies_on_a_cut_and_every_inner_cut_has_its_marks(size):
    edges = {round(x, 6) for cell in cells(size)["front"] for x in (cell.x, cell.x + cell.width)}
    rows = {round(y, 6) for cell in cells(size)["front"] for y in (cell.y, cell.y + cell.height)}
    upright = {round(x, 6) for x, y, a, b in cut_marks(size) if x == a}
    level = {round(y, 6) for x, y, a, b in cut_marks(size) if y == b}
    assert upright == {x for x in edges if 1 < x < A4[0] - 1}
    assert level == {y for y in rows if 1 < y < A4[1] - 1}


@pytest.mark.parametrize("size", FORMATS)
def test_marks_keep_to_where_printers_print(size):
    """Home printers leave about 4.2 mm at each edge (common practice)."""
    for x, y, a, b in cut_marks(size):
        assert 4.2 <= min(x, a) <= max(x, a) <= A4[0] - 4.2
        assert 4.2 <= min(y, b) <= max(y, b) <= A4[1] - 4.2


def test_where_there_is_room_marks_stand_outside_the_cards():
    grid, first = GRIDS["id1"], cells("id1")["front"][0]
    right = first.x + grid.columns * first.width
    bottom = first.y + grid.rows * first.height
    for x, y, a, b in cut_marks("id1"):
        across = max(x, a) <= first.x - 1 or min(x, a) >= right + 1
        assert across or max(y, b) <= first.y - 1 + 1e-9 or min(y, b) >= bottom + 1 - 1e-9

from itertools import combinations

from kb.drawing.layout import Block, Layout, Wire, lay_out
from kb.drawing.packing import lay_out_all

PAIR = [Block("a", 200, 80, 300), Block("b", 200, 60, 0)]
JOINT = [Wire("a", "b", 100, 20, 1)]
LONE = [Block("c", 200, 90, 300), Block("d", 200, 40, 300)]


def test_one_tree_stands_as_it_was_laid_out() -> None:
    assert lay_out_all(PAIR, JOINT) == lay_out(PAIR, JOINT)


def test_trees_stand_in_rows_in_their_order_and_apart() -> None:
    blocks = [*PAIR, *LONE]
    laid = lay_out_all(blocks, JOINT)

    (a, _, c, d) = (laid.blocks[block.id] for block in blocks)
    assert a.y == c.y < d.y
    assert a.x == d.x == 0
    for one, other in combinations(blocks, 2):
        first, second = laid.blocks[one.id], laid.blocks[other.id]
        beside = first.x + one.width + one.beside <= second.x or second.x + other.width + other.beside <= first.x
        assert beside or first.y + one.height <= second.y or second.y + other.height <= first.y


def test_a_line_and_its_words_move_with_their_tree() -> None:
    first, second = Wire("a", "b", 100, 20, 1), Wire("c", "d", 100, 20, 1)
    laid = lay_out_all([*LONE, *PAIR], [first, second])

    for wire, route in zip((first, second), laid.routes, strict=True):
        above, below = laid.blocks[wire.source], laid.blocks[wire.target]
        assert above.y < route.label.y < below.y
        assert above.x < route.curve[0].x < above.x + 200
        assert abs(route.tip.y - below.y) < 2


def test_nothing_takes_no_room() -> None:
    assert lay_out_all([], []) == Layout({}, (), 0, 0)

"""Where things stand: nothing on anything else, and lines round the boxes."""

from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise

import pytest

from kb.drawing.layout import Block, Layout, Point, Wire, lay_out

TREE = [Block("a", 200, 90, 300), Block("b", 200, 60, 0), Block("c", 200, 160, 300), Block("d", 200, 40, 300)]
WAYS = [
    Wire("a", "b", 100, 20, 6),
    Wire("b", "c", 150, 60, 6),
    Wire("a", "c", 120, 40, 1),
    Wire("a", "d", 80, 20, 1),
    Wire("b", "d", 80, 20, 1),
    Wire("c", "d", 140, 20, 6),
    Wire("d", "b", 140, 20, 1),
]


@pytest.fixture(scope="module")
def laid() -> Layout:
    return lay_out(TREE, WAYS)


def along(curve: Sequence[Point]) -> Iterator[Point]:
    """Points on the Bézier curves that a route is made of."""
    for corner in range(0, len(curve) - 3, 3):
        a, b, c, d = curve[corner : corner + 4]
        for part in (each / 20 for each in range(21)):
            left = 1 - part
            shares = (left**3, 3 * left**2 * part, 3 * left * part**2, part**3)
            yield Point(
                sum(share * at.x for share, at in zip(shares, (a, b, c, d), strict=True)),
                sum(share * at.y for share, at in zip(shares, (a, b, c, d), strict=True)),
            )


def within(point: Point, block: Block, at: Point) -> bool:
    return at.x < point.x < at.x + block.width + block.beside and at.y < point.y < at.y + block.height


def test_no_block_stands_on_another(laid: Layout) -> None:
    for one, other in combinations(TREE, 2):
        a, b = laid.blocks[one.id], laid.blocks[other.id]
        apart = (
            a.x + one.width + one.beside <= b.x
            or b.x + other.width + other.beside <= a.x
            or a.y + one.height <= b.y
            or b.y + other.height <= a.y
        )
        assert apart, (one.id, other.id)


def test_no_line_goes_through_a_block_that_is_not_its_own(laid: Layout) -> None:
    for wire, route in zip(WAYS, laid.routes, strict=True):
        for block in TREE:
            if block.id not in (wire.source, wire.target):
                at = laid.blocks[block.id]
                assert not any(within(point, block, at) for point in along(route.curve)), (wire, block.id)


def test_lines_leave_at_the_foot_and_meet_the_head(laid: Layout) -> None:
    for wire, route in zip(WAYS, laid.routes, strict=True):
        source, target = laid.blocks[wire.source], laid.blocks[wire.target]
        foot = source.y + next(block.height for block in TREE if block.id == wire.source)

        assert route.curve[0].y == pytest.approx(foot, abs=1.5)
        assert route.tip.y == pytest.approx(target.y, abs=1.5)
        assert source.x <= route.curve[0].x <= source.x + 200
        assert target.x <= route.tip.x <= target.x + 200


def test_lines_meet_a_box_at_places_of_their_own(laid: Layout) -> None:
    tips = [route.tip.x for wire, route in zip(WAYS, laid.routes, strict=True) if wire.target == "d"]

    assert all(right - left > 20 for left, right in pairwise(sorted(tips)))


def test_words_stand_on_no_block_and_within_the_picture(laid: Layout) -> None:
    for wire, route in zip(WAYS, laid.routes, strict=True):
        assert 0 <= route.label.x - wire.width / 2 <= route.label.x + wire.width / 2 <= laid.width + 1
        for block in TREE:
            at = laid.blocks[block.id]
            level = at.y < route.label.y + wire.height / 2 and route.label.y - wire.height / 2 < at.y + block.height
            beside = (
                route.label.x - wire.width / 2 >= at.x + block.width + block.beside
                or route.label.x + wire.width / 2 <= at.x
            )
            assert beside or not level, (wire, block.id)


def test_nothing_takes_no_room() -> None:
    assert lay_out([], []) == Layout({}, (), 0, 0)


def test_a_picture_is_laid_out_the_same_each_time(laid: Layout) -> None:
    assert lay_out(TREE, WAYS) == laid

"""How do trees that nothing joins stand together in one picture?"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from kb.drawing.layout import Block, Layout, Point, Route, Wire, lay_out

_BETWEEN: Final = 40.0
_ROW: Final = 1200.0


def lay_out_all(blocks: Sequence[Block], wires: Sequence[Wire]) -> Layout:
    """Lay out each tree by itself, then set them in rows, in the order their first blocks come in.

    A row is as wide as the widest tree, so that a lone step stands near the tree it fell from.
    """
    groups = list(_joined(blocks, wires))
    inside = [[number for number, wire in enumerate(wires) if wire.source in group] for group in groups]
    layouts = [
        lay_out([block for block in blocks if block.id in group], [wires[number] for number in own])
        for group, own in zip(groups, inside, strict=True)
    ]
    places: dict[str, Point] = {}
    routes: dict[int, Route] = {}
    width = height = 0.0
    for corner, layout, own in zip(_in_rows(layouts), layouts, inside, strict=True):
        places |= {name: _moved(at, corner) for name, at in layout.blocks.items()}
        routes |= {number: _led(route, corner) for number, route in zip(own, layout.routes, strict=True)}
        width, height = max(width, corner.x + layout.width), max(height, corner.y + layout.height)
    return Layout(places, tuple(routes[number] for number in range(len(wires))), width, height)


def _joined(blocks: Sequence[Block], wires: Sequence[Wire]) -> Iterator[set[str]]:
    """The names of the blocks that lines join, tree by tree."""
    left = {block.id: None for block in blocks}
    while left:
        group, ahead = set[str](), [next(iter(left))]
        while ahead:
            name = ahead.pop()
            if name in left:
                del left[name]
                group.add(name)
                ahead += [wire.target for wire in wires if wire.source == name]
                ahead += [wire.source for wire in wires if wire.target == name]
        yield group


def _in_rows(layouts: Sequence[Layout]) -> Iterator[Point]:
    """The upper left corner of each tree."""
    widest = max([_ROW, *(layout.width for layout in layouts)])
    x = y = highest = 0.0
    for layout in layouts:
        if x and x + layout.width > widest:
            x, y, highest = 0.0, y + highest + _BETWEEN, 0.0
        yield Point(x, y)
        x, highest = x + layout.width + _BETWEEN, max(highest, layout.height)


def _moved(point: Point, corner: Point) -> Point:
    return Point(point.x + corner.x, point.y + corner.y)


def _led(route: Route, corner: Point) -> Route:
    curve = tuple(_moved(point, corner) for point in route.curve)
    return replace(route, curve=curve, tip=_moved(route.tip, corner), label=_moved(route.label, corner))

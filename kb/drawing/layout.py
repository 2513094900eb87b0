"""Where does each box of a tree stand, and which way does each line take?

The only module that knows Graphviz, whose `dot` draws ranked trees and leads their lines round the boxes.
It is handed sizes and no words: what is measured here is what is drawn.
"""

import re
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from threading import Lock
from typing import Any, Final

_SPACE: Final[Mapping[str, str]] = {
    "rankdir": "TB",
    "nodesep": "0.45",
    "ranksep": "0.42",
    "splines": "spline",
    "margin": "0",
    "pad": "0",
}
_EDGE: Final = 2
_ONE_AT_A_TIME: Final = Lock()


@dataclass(frozen=True, slots=True)
class Point:
    """A place in the picture, from its upper left corner."""

    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Block:
    """A step's box and the room for its ways out to the right of it, which lines go round."""

    id: str
    width: int
    height: int
    beside: int


@dataclass(frozen=True, slots=True)
class Wire:
    """A line from the foot of one box to the head of another, with room for its words; heavier lines are straighter."""

    source: str
    target: str
    width: int
    height: int
    weight: int


@dataclass(frozen=True, slots=True)
class Route:
    """The way a line takes, as a start and the corners of Bézier curves, where its point is, and its words' middle."""

    curve: tuple[Point, ...]
    tip: Point
    label: Point


@dataclass(frozen=True, slots=True)
class Layout:
    """The upper left corner of each block, the route of each wire in their order, and the size of it all."""

    blocks: Mapping[str, Point]
    routes: tuple[Route, ...]
    width: float
    height: float


def lay_out(blocks: Sequence[Block], wires: Sequence[Wire]) -> Layout:
    """Give every block and wire its place.

    A first look shows from which side each line comes; then each gets a place of its own along the box's edge.
    """
    if not blocks:
        return Layout({}, (), 0, 0)
    # Graphviz keeps what it works on in one place for the whole program.
    with _ONE_AT_A_TIME:
        first = _run(blocks, wires, _Slots({}, {}))
        return _run(blocks, wires, _slots(wires, first.routes))


@dataclass(frozen=True, slots=True)
class _Slots:
    """For some wires, by number, which of how many places along a box's foot they leave and its head they meet."""

    feet: Mapping[int, tuple[int, int]]
    heads: Mapping[int, tuple[int, int]]

    def foot(self, wire: int) -> tuple[int, int]:
        return self.feet.get(wire, (0, 1))

    def head(self, wire: int) -> tuple[int, int]:
        return self.heads.get(wire, (0, 1))


def _slots(wires: Sequence[Wire], routes: Sequence[Route]) -> _Slots:
    leaving, meeting = defaultdict[str, list[int]](list), defaultdict[str, list[int]](list)
    for number, wire in enumerate(wires):
        leaving[wire.source].append(number)
        meeting[wire.target].append(number)
    return _Slots(_spread(leaving, routes), _spread(meeting, routes))


def _spread(ends: Mapping[str, list[int]], routes: Sequence[Route]) -> dict[int, tuple[int, int]]:
    """The lines of each box from left to right, as their words stand."""
    return {
        number: (place, len(numbers))
        for numbers in ends.values()
        for place, number in enumerate(sorted(numbers, key=lambda number: routes[number].label.x))
    }


def _run(blocks: Sequence[Block], wires: Sequence[Wire], slots: _Slots) -> Layout:
    graph = _graph(blocks, wires, slots)
    graph.layout(prog="dot")
    return _read(graph, blocks, wires)


def _graph(blocks: Sequence[Block], wires: Sequence[Wire], slots: _Slots) -> Any:
    from pygraphviz import AGraph

    graph = AGraph(directed=True, strict=False, **_SPACE)
    feet = {wire.source: slots.foot(number)[1] for number, wire in enumerate(wires)}
    heads = {wire.target: slots.head(number)[1] for number, wire in enumerate(wires)}
    for block in blocks:
        label = _shape(block, heads.get(block.id, 1), feet.get(block.id, 1))
        graph.add_node(block.id, shape="plain", label=f"<{label}>")
    for number, wire in enumerate(wires):
        graph.add_edge(
            wire.source,
            wire.target,
            key=str(number),
            label=f"<{_table(_cell(wire.width, wire.height))}>",
            weight=str(wire.weight),
            tailport=f"foot{slots.foot(number)[0]}:s",
            headport=f"head{slots.head(number)[0]}:n",
        )
    return graph


def _shape(block: Block, heads: int, feet: int) -> str:
    """A box whose upper and lower edge are cut into places for lines, and the room beside it."""
    rows = (
        _table("".join(_cell(block.width // heads, _EDGE, f"head{place}") for place in range(heads))),
        _table(_cell(block.width, block.height - 2 * _EDGE)),
        _table("".join(_cell(block.width // feet, _EDGE, f"foot{place}") for place in range(feet))),
    )
    box = _table("</TR><TR>".join(f"<TD>{row}</TD>" for row in rows))
    beside = _cell(block.beside, block.height) if block.beside else ""
    return _table(f"<TD>{box}</TD>{beside}")


def _table(cells: str) -> str:
    return f'<TABLE BORDER="0" CELLBORDER="0" CELLSPACING="0" CELLPADDING="0"><TR>{cells}</TR></TABLE>'


def _cell(width: int, height: int, port: str = "") -> str:
    named = f' PORT="{port}"' if port else ""
    return f'<TD{named} FIXEDSIZE="TRUE" WIDTH="{width}" HEIGHT="{height}"></TD>'


def _read(graph: Any, blocks: Sequence[Block], wires: Sequence[Wire]) -> Layout:
    _, _, width, height = map(float, str(graph.graph_attr["bb"]).split(","))

    def point(written: str) -> Point:
        x, y = map(float, written.split(","))
        return Point(x, height - y)

    places: dict[str, Point] = {}
    for block in blocks:
        middle = point(graph.get_node(block.id).attr["pos"])
        places[block.id] = Point(middle.x - (block.width + block.beside) / 2, middle.y - block.height / 2)
    routes: list[Route] = []
    for number, wire in enumerate(wires):
        edge = graph.get_edge(wire.source, wire.target, key=str(number))
        tip, *curve = re.sub(r"\\\s*", "", edge.attr["pos"]).removeprefix("e,").split()
        routes.append(Route(tuple(map(point, curve)), point(tip), point(edge.attr["lp"])))
    return Layout(places, tuple(routes), width, height)

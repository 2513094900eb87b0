"""How does a picture with its places look as SVG?

Every colour is an attribute and there is no style but the typeface's, so that a page's content security policy may
forbid styles; a page that has the typeface leaves it out.
"""

from collections.abc import Iterable, Iterator
from html import escape
from typing import Final

from kb.card.palette import DANGER, WARNING
from kb.drawing import words
from kb.drawing.description import described
from kb.drawing.layout import Layout, Point, Route
from kb.drawing.letters import FAMILY, embedded
from kb.drawing.picture import Picture, Sort
from kb.drawing.setting import (
    ARROW,
    BOX,
    PAD,
    SIGN,
    SIGN_PAD,
    Line,
    Row,
    SetBox,
    SetWay,
    height,
    rows_from,
)

PAPER: Final = "#faf7f0"
SHEET: Final = "#fffdf8"
INK: Final = "#17323a"
SOFT: Final = "#4d626a"

_MARGIN: Final = 24.0
_DASHES: Final = "6 4"
_FOLD: Final = 9.0
_FACES: Final = f"'{FAMILY}', Hyper, Verdana, sans-serif"


def to_svg(
    picture: Picture,
    heading: tuple[Line, ...],
    boxes: tuple[SetBox, ...],
    ways: tuple[SetWay, ...],
    layout: Layout,
    prefix: str,
    embed: bool,
) -> str:
    """The picture as a whole SVG document; every id in it begins with `prefix`."""
    top = _MARGIN + height(heading) + _MARGIN
    wide = max(layout.width, *(line.width + 30 for line in heading)) + 2 * _MARGIN
    high = top + layout.height + _MARGIN
    letters = "".join(line.words for line in _all_lines(heading, boxes, ways))
    return "".join(
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" class="tree" viewBox="0 0 {wide:.0f} {high:.0f}" '
            f'width="{wide:.0f}" height="{high:.0f}" role="img" aria-labelledby="{prefix}-title {prefix}-desc" '
            f'font-family="{_FACES}" fill="{INK}">',
            f'<title id="{prefix}-title">{escape(picture.title)}</title>',
            f'<desc id="{prefix}-desc">{escape(described(picture))}</desc>',
            *(["<style>", *embedded(letters), "</style>"] if embed else []),
            f'<rect width="{wide:.0f}" height="{high:.0f}" fill="{PAPER}"/>',
            *_words(heading, _MARGIN, _MARGIN),
            f'<g transform="translate({_MARGIN:g} {top:.1f})">',
            *(piece for way, route in zip(ways, layout.routes, strict=True) for piece in _way(way, route)),
            f'<g paint-order="stroke" stroke="{PAPER}" stroke-width="4" stroke-linejoin="round">',
            *(piece for way, route in zip(ways, layout.routes, strict=True) for piece in _label(way, route)),
            "</g>",
            *(piece for box in boxes for piece in _box(box, layout.blocks[box.box.id])),
            "</g></svg>",
        )
    )


def _all_lines(heading: tuple[Line, ...], boxes: tuple[SetBox, ...], ways: tuple[SetWay, ...]) -> Iterator[Line]:
    yield from heading
    for box in boxes:
        yield from box.lines
        for row in box.rows:
            yield from (*row.answers, *row.sign)
    for way in ways:
        yield from way.lines


def _words(lines: Iterable[Line], x: float, y: float, colour: str = "") -> Iterator[str]:
    """Lines under one another, the first one's top at `y`."""
    for line in lines:
        base = y + line.height / 2 + line.size * 0.34
        if line.mark:
            yield from _marked(line, x, y, base)
        else:
            yield _text(line, x, base, colour or (SOFT if line.quiet else "")) if line.words else ""
        y += line.height


def _text(line: Line, x: float, y: float, colour: str) -> str:
    weight = ' font-weight="700"' if line.strong else ""
    fill = f' fill="{colour}"' if colour else ""
    return f'<text x="{x:.1f}" y="{y:.1f}" font-size="{line.size:g}"{weight}{fill}>{escape(line.words)}</text>'


def _marked(line: Line, x: float, y: float, base: float) -> Iterator[str]:
    """A line that must not be missed: light on ink, with a sign of its own when it tells of something wrong."""
    yield f'<rect x="{x:.1f}" y="{y + 1:.1f}" width="{line.width + 26:.1f}" height="{line.height - 2:.1f}" rx="3"/>'
    yield _text(line, x + 21, base, SHEET)
    if line.goes_on:
        return
    middle = y + line.height / 2
    corners = (
        ((x + 7, middle - 4.5), (x + 16, middle), (x + 7, middle + 4.5))
        if line.words == words.BEGINS
        else ((x + 11.5, middle - 5), (x + 17, middle + 4.5), (x + 6, middle + 4.5))
    )
    yield f'<path d="M{"L".join(f"{a:.1f} {b:.1f}" for a, b in corners)}Z" fill="{SHEET}"/>'


def _box(box: SetBox, at: Point) -> Iterator[str]:
    dashes = f' stroke-dasharray="{_DASHES}"' if box.box.unreachable else ""
    wide = 3 if box.box.begins or box.box.marks else 1.5
    begins = ' class="begins"' if box.box.begins else ""
    yield f'<rect{begins} x="{at.x:.1f}" y="{at.y:.1f}" width="{BOX}" height="{box.height}" rx="5" fill="{SHEET}" '
    yield f'stroke="{INK}" stroke-width="{wide:g}"{dashes}/>'
    yield from _words(box.lines, at.x + PAD, at.y + PAD)
    for y, row in rows_from(at.y, box.rows):
        yield from _row(row, at.x + BOX, y)


def _row(row: Row, x: float, y: float) -> Iterator[str]:
    middle = y + row.line
    dashes = f' stroke-dasharray="{_DASHES}"' if row.exit.used_up else ""
    yield f'<path d="M{x:.1f} {middle:.1f}H{x + ARROW - 8:.1f}" fill="none" stroke="{SOFT}"{dashes}/>'
    yield _arrow(Point(x + ARROW - 8, middle), Point(x + ARROW, middle))
    yield from _words(row.answers, x + 10, middle - height(row.answers) - 3)
    yield from _sign(row, x + ARROW, middle - row.sign_height / 2)


def _sign(row: Row, x: float, y: float) -> Iterator[str]:
    """Where a way out leads: ends are round, danger is in its colour, other articles are leaves with a fold."""
    high, right = row.sign_height, x + SIGN
    sort = row.exit.sort
    if sort is Sort.ARTICLE:
        yield f'<path d="M{x:.1f} {y:.1f}H{right - _FOLD:.1f}L{right:.1f} {y + _FOLD:.1f}V{y + high:.1f}H{x:.1f}Z'
        yield f'M{right - _FOLD:.1f} {y:.1f}V{y + _FOLD:.1f}H{right:.1f}" fill="{SHEET}" stroke="{INK}"/>'
    else:
        fill = DANGER if sort is Sort.DANGER else SHEET
        edge, wide = {Sort.DANGER: (DANGER, 1), Sort.WARNING: (WARNING, 3.5)}.get(sort, (INK, 1))
        dashes = f' stroke-dasharray="{_DASHES}"' if sort is Sort.NOWHERE else ""
        rounded = 0 if sort is Sort.NOWHERE else 14
        yield f'<rect x="{x:.1f}" y="{y:.1f}" width="{SIGN:g}" height="{high:.1f}" rx="{rounded}" fill="{fill}" '
        yield f'stroke="{edge}" stroke-width="{wide:g}"{dashes}/>'
    colour = "#ffffff" if sort is Sort.DANGER else ""
    yield from _words(row.sign, x + SIGN_PAD, y + SIGN_PAD / 2, colour)


def _way(way: SetWay, route: Route) -> Iterator[str]:
    dashes = f' stroke-dasharray="{_DASHES}"' if way.way.used_up else ""
    start, *corners = (f"{point.x:.1f} {point.y:.1f}" for point in route.curve)
    yield f'<path class="way" d="M{start}C{" ".join(corners)}" fill="none" stroke="{SOFT}" stroke-width="1.4"{dashes}/>'
    yield _arrow(route.curve[-1], route.tip)


def _label(way: SetWay, route: Route) -> Iterator[str]:
    """The words beside a line, with a rim of paper so that a line that crosses them does not cross them out."""
    yield from _words(way.lines, route.label.x - way.width / 2 + 7, route.label.y - way.height / 2 + 4)


def _arrow(foot: Point, tip: Point) -> str:
    x, y = tip.x - foot.x, tip.y - foot.y
    across = (-0.45 * y, 0.45 * x)
    corners = (tip, Point(foot.x + across[0], foot.y + across[1]), Point(foot.x - across[0], foot.y - across[1]))
    return f'<path d="M{"L".join(f"{corner.x:.1f} {corner.y:.1f}" for corner in corners)}Z" fill="{SOFT}"/>'

"""How do bars, lines, dots and words get onto paper, as SVG?

The only module that knows Matplotlib, which is loaded with the first picture.
Its SVG sets colours in style attributes, which a page's content security policy forbids, and ids that two pictures
would share; so every style becomes attributes, and only ids that something points at are kept.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from html import escape
from io import BytesIO
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING, Any, Final
from xml.etree import ElementTree

import fontpkg_atkinson_hyperlegible

from kb.drawing.letters import FAMILY

if TYPE_CHECKING:
    from matplotlib.font_manager import FontProperties

Rect = tuple[float, float, float, float]
Dot = tuple[float, float]

WIDTH: Final = 336.0
"""How wide every picture is, in its own units: a small phone's page."""

PAPER: Final = "#fffdf8"
INK: Final = "#17323a"
SOFT: Final = "#4d626a"
FAINT: Final = "#b9b3a4"
SIZE: Final = 12.5
SMALL: Final = 11.5

_SVG: Final = "{http://www.w3.org/2000/svg}"
_LINK: Final = "{http://www.w3.org/1999/xlink}href"
_FACES: Final = f"'{FAMILY}', Hyper, Verdana, sans-serif"
_FONTS: Final = Path(fontpkg_atkinson_hyperlegible.__file__).parent / "files"
_ONE_AT_A_TIME: Final = Lock()
_POINTED_AT: Final = re.compile(r"url\(#([^)]+)\)|^#(.+)$")
_HATCH: Final = 0.8


class Sheet:
    """Paper to draw on, in units with the first line at the top; not for two threads at once."""

    def __init__(self, name: str, height: float) -> None:
        """Begin a picture; `name` keeps its ids apart from other pictures' on a page."""
        from matplotlib.backends.backend_svg import FigureCanvasSVG
        from matplotlib.figure import Figure

        self._name = name
        self._height = height
        self._figure = Figure(figsize=(WIDTH / 72, height / 72), dpi=72, facecolor="none")
        FigureCanvasSVG(self._figure)
        self._axes = self._figure.add_axes((0, 0, 1, 1))
        self._axes.set_axis_off()
        self._axes.set_xlim(0, WIDTH)
        self._axes.set_ylim(height, 0)

    def text(
        self, x: float, y: float, words: str, *, size: float = SIZE, strong: bool = False, at: str = "left",
        colour: str = INK,
    ) -> None:  # fmt: skip
        """Words whose middle line is at `y`; `at` is left, center or right."""
        self._axes.text(
            x,
            y,
            words,
            fontproperties=_face(strong, size),
            color=colour,
            ha=at,
            va="center_baseline",
            clip_on=False,
            parse_math=False,
        )

    def boxes(
        self, boxes: Iterable[Rect], *, fill: str | None = INK, edge: str | None = None, hatch: str = "",
        width: float = 0.8,
    ) -> None:  # fmt: skip
        """Rectangles of one look: x, y, width, height; many cost little more than one."""
        corners: list[Dot] = []
        for x, y, wide, high in boxes:
            corners += [(x, y), (x + wide, y), (x + wide, y + high), (x, y + high), (x, y)]
        if corners:
            self._path(corners, (1, 2, 2, 2, 79), fill, edge or ("none" if not hatch else SOFT), hatch, width)

    def line(self, points: Sequence[Dot], *, width: float = 1.4, colour: str = INK, dashed: bool = False) -> None:
        """A line along points."""
        from matplotlib.lines import Line2D

        xs, ys = zip(*points, strict=True)
        line = Line2D(xs, ys, linewidth=width, color=colour, clip_on=False)
        if dashed:
            line.set_dashes((4, 3))
        self._axes.add_line(line)

    def dots(self, points: Iterable[Dot], *, radius: float = 3.0, hollow: bool = False) -> None:
        """Dots, or rings."""
        from matplotlib.patches import Circle

        for point in points:
            look = {"facecolor": PAPER if hollow else INK, "edgecolor": INK, "linewidth": 1.2}
            self._axes.add_patch(Circle(point, radius, clip_on=False, zorder=3, **look))

    def svg(self, title: str, description: str) -> str:
        """The picture with what somebody hears who cannot see it."""
        from matplotlib import rc_context

        kept = BytesIO()
        with rc_context({"svg.fonttype": "none", "svg.hashsalt": self._name, "path.simplify": False}):
            self._figure.savefig(kept, format="svg", metadata={"Date": None, "Creator": None, "Format": None})
        root = ElementTree.fromstring(kept.getvalue())
        inside = "".join(_written(child, _pointed_at(root), self._name) for child in root)
        name = self._name
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" class="figure" viewBox="0 0 {WIDTH:g} {self._height:g}" '
            f'width="{WIDTH:g}" height="{self._height:g}" role="img" aria-labelledby="{name}-title {name}-desc" '
            f'font-family="{_FACES}" stroke-linejoin="round"><title id="{name}-title">{escape(title)}</title>'
            f'<desc id="{name}-desc">{escape(description)}</desc>{inside}</svg>'
        )

    def _path(
        self, corners: list[Dot], codes: tuple[int, ...], fill: str | None, edge: str, hatch: str, width: float
    ) -> None:
        from matplotlib.patches import PathPatch
        from matplotlib.path import Path as Outline

        outline = Outline(corners, list(codes) * (len(corners) // len(codes)))
        look: dict[str, Any] = {"facecolor": fill or "none", "edgecolor": edge, "linewidth": width}
        patch = PathPatch(outline, hatch=hatch or None, clip_on=False, **look)
        patch.set_hatch_linewidth(_HATCH)
        self._axes.add_patch(patch)


def one_at_a_time() -> Lock:
    """The lock to hold while drawing: Matplotlib's settings are the process's."""
    return _ONE_AT_A_TIME


def _face(strong: bool, size: float) -> FontProperties:
    from matplotlib.font_manager import FontProperties

    return FontProperties(
        fname=_FONTS / f"AtkinsonHyperlegible-{'Bold' if strong else 'Regular'}.ttf",
        size=size,
        weight="bold" if strong else "normal",
    )


def _pointed_at(root: ElementTree.Element) -> frozenset[str]:
    values = [value for each in root.iter() for name, value in each.attrib.items() if name == _LINK or "url(" in value]
    return frozenset(a or b for value in values for a, b in _POINTED_AT.findall(value))


def _written(element: ElementTree.Element, kept: frozenset[str], name: str) -> str:
    """An element without styles; groups that only had an id are gone, and so is what tells of the program."""
    tag = element.tag.removeprefix(_SVG)
    if tag in ("metadata", "style"):
        return ""
    inside = escape(element.text or "") if tag == "text" else ""
    inside += "".join(_written(child, kept, name) for child in element)
    attributes = _attributes(element, kept, name)
    if tag in ("g", "defs") and (not attributes or not inside):
        return inside
    return f"<{tag}{attributes}>{inside}</{tag}>" if inside else f"<{tag}{attributes}/>"


def _attributes(element: ElementTree.Element, kept: frozenset[str], name: str) -> str:
    found: dict[str, str] = {}
    for key, value in element.attrib.items():
        if key == "id" and value in kept:
            found["id"] = f"{name}-{value}"
        elif key == _LINK:
            found["href"] = f"#{name}-{value[1:]}"
        elif key == "style":
            found |= dict(_declared(value))
        elif key != "id" and not value.startswith("rotate(-0"):
            found[key] = " ".join(value.split())
    return "".join(f' {key}="{escape(value.replace("url(#", f"url(#{name}-"))}"' for key, value in found.items())


def _declared(style: str) -> Iterable[tuple[str, str]]:
    for declaration in style.split(";"):
        key, _, value = declaration.partition(":")
        key, value = key.strip(), value.strip()
        if key == "font":
            size = re.search(r"([\d.]+)px", value)
            yield from (("font-size", size[1]),) if size else ()
            yield from (("font-weight", "700"),) if re.search(r"\b(bold|700)\b", value) else ()
        elif key and key != "font-family":
            yield key, value

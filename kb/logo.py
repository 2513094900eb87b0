"""May this file be printed as the firm's logo, and what shape has it?

Reading the bytes is somebody else's work; here they are only looked at.
"""

import re
from base64 import b64encode
from collections.abc import Iterator
from dataclasses import dataclass
from struct import unpack
from typing import Final
from xml.etree import ElementTree

from kb.findings import Finding, Place

LARGEST: Final = 256 * 1024
"""How many bytes a logo may have: it stands in every card of a batch."""

FEWEST_PIXELS: Final = 120
"""The least height of a PNG: printed 10 mm high it then has 300 dots to the inch."""

MOST_PIXELS: Final = 4000

WIDEST: Final = 6.0
"""How many times wider than high, or higher than wide, a logo may be before it is a line on a card."""

_FILE: Final = re.compile(r"\w[\w .-]*\.(svg|png)", re.I)
_PNG: Final = b"\x89PNG\r\n\x1a\n"
_HEADER_END: Final = 24
_SPACE: Final = "{http://www.w3.org/2000/svg}"
_NUMBER: Final = re.compile(r"\s*([0-9.]+)\s*(?:px|mm|cm|in|pt)?\s*")
_DECLARED: Final = re.compile(rb"<!(DOCTYPE|ENTITY)", re.I)
_OUTSIDE: Final = re.compile(r"url\(\s*['\"]?(?!#)|@import", re.I)
_UNFIT: Final = {
    "text": ("It holds words as letters, and the card has no typeface for them.", "Save it with words as outlines."),
    "image": ("It holds a picture in a picture.", "Save the drawing alone, or the whole logo as PNG."),
    "script": ("It holds a script.", "Save the drawing alone."),
    "foreignObject": ("It holds a web page.", "Save the drawing alone."),
}


@dataclass(frozen=True, slots=True)
class Logo:
    """A logo as SVG, a PNG wrapped in one, with its width and height in whatever unit."""

    svg: str
    width: float
    height: float

    def within(self, width: float, height: float) -> tuple[float, float]:
        """Its largest extent in a box, never stretched."""
        scale = min(width / self.width, height / self.height)
        return self.width * scale, self.height * scale


def beside(name: str) -> str:
    """The name of a logo's file that lies beside the firm's own file.

    Raises ValueError for the name of anything else.
    """
    if not _FILE.fullmatch(name):
        raise ValueError(f"expected the name of an SVG or PNG file beside this one, like logo.svg, found {name!r}")
    return name


def read_logo(file: str, data: bytes) -> tuple[Logo | None, tuple[Finding, ...]]:
    """The logo in a file's bytes, or everything that is wrong with it."""
    if len(data) > LARGEST:
        found = f"The logo has {len(data) // 1024} kB, and at most {LARGEST // 1024} kB can be printed."
        return None, (_finding(file, found, "Save it smaller, as SVG or with fewer pixels."),)
    logo = _png(data) if data.startswith(_PNG) else _svg(data)
    wrong = _unfit_shape(logo) if isinstance(logo, Logo) else logo
    if wrong:
        return None, tuple(_finding(file, found, remedy) for found, remedy in wrong)
    assert isinstance(logo, Logo)
    return logo, ()


def _finding(file: str, found: str, remedy: str) -> Finding:
    return Finding(Place(file, 1), "firm", found, remedy)


_Wrong = tuple[tuple[str, str], ...]


def _unfit_shape(logo: Logo) -> _Wrong:
    longer, shorter = max(logo.width, logo.height), min(logo.width, logo.height)
    if longer <= WIDEST * shorter:
        return ()
    found = f"The logo is {longer / shorter:.1f} times longer than wide, and at most {WIDEST:g} times can be printed."
    return ((found, "Supply the one that is nearer to a square."),)


def _png(data: bytes) -> Logo | _Wrong:
    if len(data) < _HEADER_END or data[12:16] != b"IHDR" or not data.rstrip(b"\0").endswith(b"IEND\xaeB`\x82"):
        return (("The file begins as a PNG and is not whole.", "Save it again."),)
    width, height = unpack(">II", data[16:24])
    if min(width, height) < FEWEST_PIXELS or max(width, height) > MOST_PIXELS:
        found = f"The logo has {width} by {height} pixels; expected {FEWEST_PIXELS} to {MOST_PIXELS} each way."
        return ((found, "Save it in that size, or as SVG."),)
    picture = b64encode(data).decode()
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}">'
        f'<image width="{width}" height="{height}" href="data:image/png;base64,{picture}"/></svg>'
    )
    return Logo(svg, width, height)


def _svg(data: bytes) -> Logo | _Wrong:
    no_svg = (("The file is neither a whole SVG nor a PNG.", "Save the logo as one of the two."),)
    if _DECLARED.search(data):
        return (("The SVG declares a document type of its own.", "Save it without, as plain SVG."),)
    try:
        text = data.decode("utf-8-sig")
        root = ElementTree.fromstring(text)
    except (UnicodeDecodeError, ElementTree.ParseError, ValueError):
        return no_svg
    if root.tag != f"{_SPACE}svg":
        return no_svg
    extent = _extent(root)
    wrong = (*_unfit(root), *(() if extent else _NO_EXTENT))
    return wrong if wrong or not extent else Logo(text, *extent)


_NO_EXTENT: Final = (("The SVG does not say how large it is.", "Save it with a viewBox, or a width and a height."),)


def _extent(root: ElementTree.Element) -> tuple[float, float] | None:
    box = re.split(r"[\s,]+", root.get("viewBox", "").strip())
    sides = box[2:] if len(box) == 4 else [root.get("width", ""), root.get("height", "")]
    numbers = [_NUMBER.fullmatch(side) for side in sides]
    try:
        width, height = (float(number[1]) if number else 0.0 for number in numbers)
    except ValueError:
        return None
    return (width, height) if width > 0 and height > 0 else None


def _unfit(root: ElementTree.Element) -> Iterator[tuple[str, str]]:
    """What a drawing holds that a card cannot print, or that would fetch something from elsewhere."""
    elements = list(root.iter())
    for name, why in _UNFIT.items():
        if any(element.tag == f"{_SPACE}{name}" for element in elements):
            yield why
    if any(_points_outside(element) for element in elements):
        yield "It points to something outside its own file.", "Save it with everything in it."


def _points_outside(element: ElementTree.Element) -> bool:
    links = [value for name, value in element.items() if name.rpartition("}")[2] == "href"]
    written = " ".join((*element.attrib.values(), element.text or ""))
    return any(not link.startswith("#") for link in links) or _OUTSIDE.search(written) is not None

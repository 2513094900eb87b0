"""A printed card, read back by other libraries than the one that made it."""

from collections.abc import Iterator
from ctypes import c_ushort, create_string_buffer
from dataclasses import dataclass, field
from typing import Any

import pypdfium2
import pypdfium2.raw as pdfium
from PIL import Image


@dataclass
class Tag:
    """One element of the tag tree: its kind, its words for those who do not see it, its text, its children."""

    kind: str
    alternative: str
    text: str
    children: list["Tag"] = field(default_factory=list)

    def all(self) -> Iterator["Tag"]:
        """This element and every one below it, in reading order."""
        yield self
        for child in self.children:
            yield from child.all()

    @property
    def read(self) -> str:
        """Everything in it, as it is read out."""
        return " ".join(tag.text for tag in self.all() if tag.text)


def pictures(pdf: bytes, dpi: int) -> list[Image.Image]:
    """Every page as a picture."""
    return [page.render(scale=dpi / 72).to_pil() for page in pypdfium2.PdfDocument(pdf)]


def sizes(pdf: bytes) -> list[tuple[str, float]]:
    """Every run of text outside pictures and in them, with the height of its letters in points."""
    return [run for page in pypdfium2.PdfDocument(pdf) for run in _runs(page)]


def tags(pdf: bytes) -> list[Tag]:
    """The tag tree of every page."""
    return [_tree(page) for page in pypdfium2.PdfDocument(pdf)]


def _objects(page: Any) -> list[Any]:
    return [each for each in page.get_objects(max_depth=8) if each.type == pdfium.FPDF_PAGEOBJ_TEXT]


def _words(page: Any, run: Any) -> str:
    text_page = page.get_textpage()
    length = pdfium.FPDFTextObj_GetText(run.raw, text_page.raw, None, 0)
    buffer = (c_ushort * (length // 2))()
    pdfium.FPDFTextObj_GetText(run.raw, text_page.raw, buffer, length)
    return bytes(buffer).decode("utf-16-le").rstrip("\0")


def _runs(page: Any) -> Iterator[tuple[str, float]]:
    from ctypes import byref, c_float

    for run in _objects(page):
        size = c_float()
        pdfium.FPDFTextObj_GetFontSize(run.raw, byref(size))
        matrix = run.get_matrix()
        outer = run.container.get_matrix() if run.container is not None else None
        scale = (matrix.b**2 + matrix.d**2) ** 0.5 * ((outer.b**2 + outer.d**2) ** 0.5 if outer else 1)
        yield _words(page, run), size.value * scale


def _tree(page: Any) -> Tag:
    texts: dict[int, str] = {}
    for run in _objects(page):
        mark = pdfium.FPDFPageObj_GetMarkedContentID(run.raw)
        texts[mark] = texts.get(mark, "") + _words(page, run)
    tree = pdfium.FPDF_StructTree_GetForPage(page.raw)
    return _tag(pdfium.FPDF_StructTree_GetChildAtIndex(tree, 0), texts)


def _told(ask: Any, element: Any) -> str:
    length = ask(element, None, 0)
    buffer = create_string_buffer(max(length, 2))
    ask(element, buffer, length)
    return buffer.raw[:length].decode("utf-16-le").rstrip("\0")


def _tag(element: Any, texts: dict[int, str]) -> Tag:
    count = pdfium.FPDF_StructElement_CountChildren(element)
    marks = [pdfium.FPDF_StructElement_GetChildMarkedContentID(element, n) for n in range(count)]
    below = [pdfium.FPDF_StructElement_GetChildAtIndex(element, n) for n in range(count)]
    return Tag(
        kind=_told(pdfium.FPDF_StructElement_GetType, element),
        alternative=_told(pdfium.FPDF_StructElement_GetAltText, element),
        text="".join(texts.get(mark, "") for mark in marks if mark >= 0),
        children=[_tag(child, texts) for child in below if child],
    )

"""Sheets as they come out of the printer: fronts and backs meet, every code is read, nothing lies outside its card."""

from io import BytesIO

import pypdfium2
import pytest
import zxingcpp
from PIL import ImageDraw, ImageFilter
from pypdf import PdfReader

from kb.card.press import press
from kb.card.sheet import A4, cells, cut_marks, up
from kb.card.sizes import FORMATS
from tests.kb.card.cards import fleet
from tests.kb.card.printed import pictures, sizes, tags


@pytest.fixture(scope="module", params=FORMATS)
def size(request):
    return request.param


@pytest.fixture(scope="module")
def cards(size):
    """A full sheet and one card more."""
    return fleet(size, up(size) + 1)


@pytest.fixture(scope="module")
def printed(cards):
    return press().printed(cards, sheets=True)


def said(pdf, page, cell):
    """What stands in a cell, as another library reads it, without spaces."""
    point = 72 / 25.4
    left, bottom = cell.x * point, (A4[1] - cell.y - cell.height) * point
    right, top = (cell.x + cell.width) * point, (A4[1] - cell.y) * point
    text = pypdfium2.PdfDocument(pdf)[page].get_textpage().get_text_bounded(left, bottom, right, top)
    return "".join(text.split())


def test_fronts_and_backs_follow_each_other_on_upright_a4(printed):
    pages = PdfReader(BytesIO(printed.pdf)).pages
    assert len(pages) == 4
    for page in pages:
        millimetres = [float(length) * 25.4 / 72 for length in (page.mediabox.width, page.mediabox.height)]
        assert millimetres == pytest.approx(A4, abs=0.01)


def test_each_side_lies_in_its_own_cell(printed, cards, size):
    keyed = {"a6": "front", "a5": "front", "id1": "back"}[size]
    for n, card in enumerate(cards[: up(size)]):
        page = 0 if keyed == "front" else 1
        assert card.page_typed[1] in said(printed.pdf, page, cells(size)[keyed][n])


def test_the_back_of_the_one_card_that_differs_lies_behind_its_front(printed, cards, size):
    fronts = [said(printed.pdf, 0, cell) for cell in cells(size)["front"]]
    backs = [said(printed.pdf, 1, cell) for cell in cells(size)["back"]]
    own = cards[1].page_typed[1] if size == "id1" else "behindpanel1"
    assert ["tankorbottles" in text for text in fronts].index(True) == 1
    assert [own in text for text in backs].index(True) == 1


def test_a_card_more_begins_the_next_sheet(printed, cards, size):
    front, *rest = (said(printed.pdf, 2, cell) for cell in cells(size)["front"])
    assert "Smellgas" in front
    assert not any(rest)
    assert "cardoverfirst." in said(printed.pdf, 3, cells(size)["back"][0])


@pytest.mark.parametrize("blur", [0, 1.0])
def test_every_code_is_read_from_a_coarse_picture(printed, cards, blur):
    found = [
        code.text
        for sheet in pictures(printed.pdf, dpi=150)
        for code in zxingcpp.read_barcodes(sheet.filter(ImageFilter.GaussianBlur(blur)))
    ]
    assert sorted(found) == sorted(card.page for card in cards)


@pytest.mark.parametrize("page", [0, 1])
def test_outside_the_cards_there_is_nothing_but_marks(printed, size, page):
    dots = 100 / 25.4
    picture = pictures(printed.pdf, dpi=100)[page].convert("L")
    cover = ImageDraw.Draw(picture)
    inner = FORMATS[size].margin - 0.8
    for cell in cells(size)["back" if page else "front"]:
        far = (cell.x + cell.width - inner, cell.y + cell.height - inner)
        cover.rectangle([(side * dots) for side in (cell.x + inner, cell.y + inner, *far)], fill=255)
    marked = picture.getextrema()[0]
    for x, y, a, b in cut_marks(size):
        cover.rectangle([side * dots for side in (x - 0.4, y - 0.4, a + 0.4, b + 0.4)], fill=255)
    assert marked < 200, "the marks can be seen"
    assert picture.getextrema()[0] > 250


def test_no_letter_is_smaller_than_on_a_card_alone(printed, size):
    assert min(points for words, points in sizes(printed.pdf) if words.strip()) >= FORMATS[size].smallest - 0.001


def test_sheets_are_tagged_and_marks_are_not_read_out(printed, cards, size):
    first = tags(printed.pdf)[0]
    assert [tag.kind for tag in first.all()].count("H1") == up(size)
    figures = [tag.alternative for page in tags(printed.pdf) for tag in page.all() if tag.kind == "Figure"]
    assert all(figures)
    assert sum(words.startswith("QR code") for words in figures) == len(cards)


def test_a_file_of_many_cards_is_named_for_the_firm(printed):
    root = PdfReader(BytesIO(printed.pdf))
    assert root.metadata.title == "Heating cards, Any Heating"
    assert "pdfuaid:part>1<" in root.trailer["/Root"]["/Metadata"].get_data().decode().replace(" ", "")


def test_every_card_on_a_sheet_is_seen_to_fit(printed, cards):
    assert all(printed.sits(n) for n in range(len(cards)))

"""The picture on the page is the drawing that is printed: two other libraries hold one against the other.

pdfium draws the PDF, Typst drew the picture, and their edges differ by parts of a dot.
So both are blurred by two dots before they are compared, and the outermost four dots, where a page ends between two
dots, are left out.
The darkest difference is then 48 of 255 and comes from the edges of the code; one wrong letter is 63 or more.
"""

from dataclasses import replace
from io import BytesIO

import pytest
from PIL import Image, ImageChops, ImageFilter

from kb.card import BOTH, Style, pdf, png
from kb.card.sizes import FORMATS
from server.preview.files import DPI
from tests.builders import firm
from tests.kb.card.cards import LOGO, VENTED, card, home
from tests.kb.card.printed import pictures
from tests.server.preview.conftest import HOMES, ROOMS

MOST = 55
FINER = 4


def drawn(picture: bytes) -> Image.Image:
    return Image.open(BytesIO(picture)).convert("L")


def printed(pdf_: bytes, side: int, dpi: int, extent: tuple[int, int]) -> Image.Image:
    """A page at as many dots as its picture, drawn finer first so that no dot is stretched."""
    page = pictures(pdf_, dpi * FINER)[side].convert("L")
    return page.crop((0, 0, extent[0] * FINER, extent[1] * FINER)).reduce(FINER)


def difference(one: Image.Image, other: Image.Image) -> int:
    assert one.size == other.size
    first, second = (
        each.filter(ImageFilter.GaussianBlur(2)).crop((4, 4, each.width - 4, each.height - 4)) for each in (one, other)
    )
    return int(ImageChops.difference(first, second).getextrema()[1])


@pytest.mark.parametrize("room", ROOMS)
@pytest.mark.parametrize("size", FORMATS)
@pytest.mark.parametrize("home_", HOMES, ids=["sealed", "vented"])
def test_both_sides_on_the_page_are_the_pages_of_its_pdf(browser, room, size, home_):
    here = f"{room}/homes/{home_.key}/card"
    whole = browser.file(f"{here}/{size}.pdf", "application/pdf")
    shown = [drawn(browser.file(address, "image/png")) for address, _ in browser.pictures(f"{here}/{size}")]
    on_paper = [printed(whole, side, DPI[size], picture.size) for side, picture in enumerate(shown)]
    assert [difference(*pair) <= MOST for pair in zip(shown, on_paper, strict=True)] == [True, True]
    # The two sides are not taken for one another.
    assert difference(shown[0], on_paper[1]) > MOST


@pytest.mark.parametrize("size", FORMATS)
@pytest.mark.parametrize("home_", [home(), home(VENTED, places={})], ids=["sealed", "vented"])
def test_one_wrong_letter_on_a_side_would_be_found(size, home_):
    made = card(home_=home_, firm_=firm(demo=True), style=Style(size, LOGO))
    whole = pdf(made)
    lines = made.danger.last.replace("safe", "sale"), made.first.replace("first", "fjrst")
    wrong = replace(made, danger=replace(made.danger, last=lines[0]), first=lines[1])
    for number, side in enumerate(BOTH):
        right, other = (drawn(png(each, side, DPI[size])) for each in (made, wrong))
        on_paper = printed(whole, number, DPI[size], right.size)
        assert difference(right, on_paper) <= MOST < difference(other, on_paper)

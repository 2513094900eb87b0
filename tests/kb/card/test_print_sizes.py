"""The finished PDF in every size against the outside: ISO 216, ISO/IEC 7810, ISO 14289-1, and other libraries' eyes."""

import re
from io import BytesIO

import pytest
import zxingcpp
from PIL import Image, ImageFilter, ImageFont
from pypdf import PdfReader

from kb.card import Style, pdf
from kb.card.press import _folder
from kb.card.sizes import FORMATS
from kb.logo import read_logo
from tests.builders import firm
from tests.kb.card.cards import KEY, LOGO, VENTED, card, home
from tests.kb.card.printed import pictures, sizes, tags
from tests.kb.card.test_sheet import MILLIMETRES

SMALLEST = {"a6": 7.5, "id1": 7, "a5": 16}
"""Large print begins at 16 points (common practice of sight-loss charities); the others: see kb/card/sizes.py."""


@pytest.fixture(scope="module", params=FORMATS)
def size(request):
    return request.param


@pytest.fixture(scope="module")
def made(size):
    return card(firm_=firm(demo=True, colour="#1d4e5f"), style=Style(size, LOGO))


@pytest.fixture(scope="module")
def printed(made):
    return pdf(made)


@pytest.fixture(scope="module")
def reader(printed):
    return PdfReader(BytesIO(printed))


def test_it_has_two_pages_of_its_size(reader, size):
    assert len(reader.pages) == 2
    for page in reader.pages:
        millimetres = [float(length) * 25.4 / 72 for length in (page.mediabox.width, page.mediabox.height)]
        assert millimetres == pytest.approx(MILLIMETRES[size], abs=0.01)


@pytest.mark.parametrize("blur", [0, 1.0])
def test_another_library_reads_its_code_from_a_coarse_picture(printed, made, blur):
    sides = [picture.filter(ImageFilter.GaussianBlur(blur)) for picture in pictures(printed, dpi=150)]
    found = [code.text for side in sides for code in zxingcpp.read_barcodes(side)]
    assert found == [made.page]


def test_one_module_is_at_least_half_a_millimetre(printed, made):
    sides = [code for side in pictures(printed, dpi=300) for code in zxingcpp.read_barcodes(side)]
    corners = sides[0].position
    side_mm = (corners.top_right.x - corners.top_left.x) * 25.4 / 300
    assert side_mm / 33 >= 0.5, "version 4 has 33 modules (ISO/IEC 18004)"


def test_no_letter_is_smaller_than_its_size_allows(printed, size):
    assert min(points for words, points in sizes(printed) if words.strip()) >= SMALLEST[size] - 0.001


def test_the_smallest_letters_of_all_have_an_x_of_one_point_two_millimetres():
    """Regulation (EU) No 1169/2011, article 13(2), for words on food; from memory."""
    (regular,) = [path for path in _folder().glob("*Regular*") if path.suffix in (".ttf", ".otf")]
    _, top, _, bottom = ImageFont.truetype(regular, 1000).getbbox("x")
    assert (bottom - top) / 1000 * SMALLEST["id1"] * 25.4 / 72 >= 1.2


def test_it_is_tagged_in_its_language_with_its_title(reader):
    """ISO 14289-1: tags, a language, a title, and the title shown."""
    root = reader.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en-GB"
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert reader.metadata.title == "Heating card: Anymake 24, Any Heating"
    assert "pdfuaid:part>1<" in root["/Metadata"].get_data().decode().replace(" ", "")


def test_every_font_is_the_cards_own_and_embedded(reader):
    fonts = [font for page in reader.pages for font in page["/Resources"]["/Font"].values()]
    assert fonts
    for font in fonts:
        descendant = font.get_object()["/DescendantFonts"][0].get_object()
        assert "AtkinsonHyperlegible" in descendant["/BaseFont"]
        assert {"/FontFile2", "/FontFile3"} & set(descendant["/FontDescriptor"].get_object())


def test_every_picture_is_told_in_words(printed, size):
    told = [tag.alternative for page in tags(printed) for tag in page.all() if tag.kind == "Figure"]
    begins = ["Logo of Any Heating", "QR code that opens "]
    begins += [] if size == "id1" else ["Pressure gauge. A dial from 0 to 4 bar"]
    assert len(told) == len(begins)
    assert all(any(words.startswith(begin) for words in told) for begin in begins)


def test_danger_is_read_first_each_number_to_its_end(printed):
    read = tags(printed)[0].read
    wanted = [
        "No flames",
        "Touch no switch",
        "From outside, ring",
        "0800 111 999",
        "If anyone is ill",
        "999",
        "Stay out",
    ]
    assert re.search(".*".join(map(re.escape, wanted)), read)


def test_the_firm_its_phone_and_the_key_are_on_it(reader):
    said = " ".join(page.extract_text() for page in reader.pages)
    assert "Any Heating" in said
    assert "01632 960123" in said
    assert KEY in said.replace("\n", "")


def test_the_largest_of_all_is_the_firms_phone(printed):
    assert max(sizes(printed), key=lambda run: run[1])[0].strip() == "01632 960123"


@pytest.mark.parametrize("side", [0, 1])
def test_both_sides_of_a_demo_say_so(reader, side):
    assert "DEMO" in reader.pages[side].extract_text()


def test_the_back_sends_people_in_danger_to_the_front(reader):
    assert "Turn the card over first." in " ".join(reader.pages[1].extract_text().split())


@pytest.mark.parametrize("side", [0, 1])
def test_nothing_comes_nearer_to_the_edge_than_the_margin(printed, size, side):
    page = pictures(printed, dpi=200)[side].convert("L")
    dark = page.point(lambda light: 255 if light < 250 else 0).getbbox()
    # Frames are drawn on their edge, and the word DEMO has room around it.
    edge = (FORMATS[size].margin - 0.8) * 200 / 25.4
    assert min(dark[0], dark[1], page.width - dark[2], page.height - dark[3]) >= edge


def test_a_home_without_a_gauge_has_none_drawn(size):
    vented = pdf(card(home_=home(VENTED), style=Style(size)))
    told = [tag.alternative for page in tags(vented) for tag in page.all() if tag.kind == "Figure"]
    assert [words.startswith("QR code") for words in told] == [True]


def test_the_firms_name_alone_is_in_its_colour(made):
    with_colour = pictures(pdf(made), dpi=100)
    without = pictures(pdf(card(firm_=firm(demo=True), style=Style(made.size, LOGO))), dpi=100)
    changed = [one != other for one, other in zip(with_colour, without, strict=True)]
    assert changed == ([False, True] if made.size == "id1" else [True, False])


def test_a_logo_of_pixels_is_printed_in_its_shape(size):
    saved = BytesIO()
    Image.new("RGB", (300, 200), "#ff00ff").save(saved, "PNG")
    logo, _ = read_logo("logo.png", saved.getvalue())
    sides = pictures(pdf(card(style=Style(size, logo))), dpi=200)
    (box,) = [found for side in sides if (found := side.convert("RGB").getchannel("G").point(_all_gone).getbbox())]
    assert (box[2] - box[0]) / (box[3] - box[1]) == pytest.approx(1.5, abs=0.05)


def _all_gone(green):
    """No other colour on a card is without any green."""
    return 255 if green < 10 else 0

"""The finished PDF against the outside: ISO 216, ISO/IEC 18004, ISO 14289-1, and what other libraries read from it."""

import re
from io import BytesIO

import pytest
import zxingcpp
from PIL import ImageFilter
from pypdf import PdfReader

from kb.card import pdf
from kb.facts import EXTREME_MARKS
from tests.builders import firm
from tests.kb.card.cards import KEY, VENTED, card, gb, home
from tests.kb.card.printed import pictures, sizes, tags

A6_MM = (105, 148)

MODULES = 33
"""Version 4, which holds 62 bytes at level M (ISO/IEC 18004, table 7): the address here has 45."""


@pytest.fixture(scope="module")
def demo_card():
    return card(firm_=firm(demo=True))


@pytest.fixture(scope="module")
def printed(demo_card):
    return pdf(demo_card)


def reader(printed):
    return PdfReader(BytesIO(printed))


def test_it_has_two_sides_of_a6(printed):
    """ISO 216: 105 by 148 mm, within a millimetre and a half."""
    pages = reader(printed).pages
    assert len(pages) == 2
    for page in pages:
        millimetres = [float(length) * 25.4 / 72 for length in (page.mediabox.width, page.mediabox.height)]
        assert millimetres == pytest.approx(A6_MM, abs=0.01)


@pytest.mark.parametrize("blur", [0, 1.0])
def test_another_library_reads_the_code_from_a_coarse_picture_of_the_card(printed, demo_card, blur):
    front = pictures(printed, dpi=150)[0].filter(ImageFilter.GaussianBlur(blur))
    found = zxingcpp.read_barcodes(front)
    assert [code.text for code in found] == [demo_card.page]
    assert found[0].ec_level in ("M", "Q", "H")


def test_around_the_code_four_modules_are_white(printed):
    """ISO/IEC 18004: the quiet zone is four modules wide on all sides."""
    front = pictures(printed, dpi=300)[0].convert("L")
    corners = zxingcpp.read_barcode(front).position
    left, top, right, bottom = corners.top_left.x, corners.top_left.y, corners.bottom_right.x, corners.bottom_right.y
    quiet = int(4 * (right - left) / MODULES) - 2
    around = front.crop((left - quiet, top - quiet, right + quiet, bottom + quiet))
    around.paste(255, (quiet - 2, quiet - 2, around.width - quiet + 2, around.height - quiet + 2))
    assert around.getextrema()[0] > 240


def test_one_module_is_at_least_half_a_millimetre(printed):
    corners = zxingcpp.read_barcode(pictures(printed, dpi=300)[0]).position
    side_mm = (corners.top_right.x - corners.top_left.x) * 25.4 / 300
    assert side_mm / MODULES >= 0.5


def test_it_says_that_it_is_tagged_in_which_language_and_what_it_is_called(printed):
    """ISO 14289-1: tags, a language, a title, and the title shown."""
    root = reader(printed).trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en-GB"
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert reader(printed).metadata.title == "Heating card: Anymake 24, Any Heating"


def test_it_claims_the_standard_it_keeps_to(printed):
    """ISO 14289-1, clause 5: the part is named in the metadata."""
    xmp = reader(printed).trailer["/Root"]["/Metadata"].get_data().decode()
    assert "pdfuaid:part>1<" in xmp.replace(" ", "")


def test_every_font_is_the_cards_own_and_embedded(printed):
    fonts = [font for page in reader(printed).pages for font in page["/Resources"]["/Font"].values()]
    assert fonts
    for font in fonts:
        descendant = font.get_object()["/DescendantFonts"][0].get_object()
        assert "AtkinsonHyperlegible" in descendant["/BaseFont"]
        assert {"/FontFile2", "/FontFile3"} & set(descendant["/FontDescriptor"].get_object())


def test_gauge_and_code_are_told_in_words(printed, demo_card):
    told = [tag.alternative for tag in tags(printed)[0].all() if tag.kind == "Figure"]
    assert told[0].startswith("Pressure gauge. A dial from 0 to 4 bar, with marks at 0.8 (low)")
    assert told[1] == f"QR code that opens {demo_card.page}"


def test_the_danger_panel_is_read_first_each_call_to_its_end(printed):
    read = tags(printed)[0].read
    wanted = [
        "No flames",
        "Touch no switch",
        "Get everybody out",
        "From outside, ring",
        "0800 111 999",
        "If anyone is ill",
        "999",
        "Stay out",
        "Any Heating",
        "01632 960123",
    ]
    assert re.search(".*".join(map(re.escape, wanted)), read)


def test_headings_begin_at_the_first_level_and_skip_none(printed):
    levels = [int(tag.kind[1]) for page in tags(printed) for tag in page.all() if tag.kind in ("H1", "H2", "H3")]
    assert levels[0] == 1
    assert set(levels) == {1, 2}


def test_no_letter_is_smaller_than_seven_and_a_half_points(printed):
    assert min(size for words, size in sizes(printed) if words.strip()) >= 7.5


def test_the_phone_is_the_largest_and_over_twenty_points(printed):
    largest = max(sizes(printed), key=lambda run: run[1])
    assert largest[0].strip() == "01632 960123"
    assert largest[1] >= 20


@pytest.mark.parametrize("side", [0, 1])
def test_both_sides_of_a_demo_say_so(printed, side):
    assert "DEMO" in reader(printed).pages[side].extract_text()


def test_no_other_card_says_so():
    assert not any("DEMO" in page.extract_text() for page in reader(pdf(card())).pages)


def test_the_address_is_typed_out_with_the_key(printed):
    assert f"heating.example/h/{KEY}" in reader(printed).pages[0].extract_text().replace("\n", "")


@pytest.mark.parametrize("side", [0, 1])
def test_nothing_comes_nearer_to_the_edge_than_a_printer_can_print(printed, side):
    page = pictures(printed, dpi=200)[side].convert("L")
    dark = page.point(lambda light: 255 if light < 250 else 0).getbbox()
    edge = 4.2 * 200 / 25.4
    assert dark[0] >= edge
    assert dark[1] >= edge
    assert page.width - dark[2] >= edge
    assert page.height - dark[3] >= edge


@pytest.mark.parametrize("marks", EXTREME_MARKS)
def test_a_home_with_any_marks_has_its_gauge(marks):
    (figure, _) = [tag for tag in tags(pdf(card(home_=home(marks=marks))))[0].all() if tag.kind == "Figure"]
    assert f"{marks.aim} (aim for this)" in figure.alternative


def test_a_vented_home_has_no_gauge_drawn():
    figures = [tag.alternative for tag in tags(pdf(card(home_=home(VENTED))))[0].all() if tag.kind == "Figure"]
    assert len(figures) == 1
    assert figures[0].startswith("QR code")


@pytest.mark.parametrize("name", ["gb", "ie", "ni", "neutral"])
def test_every_region_prints_in_its_own_language(name):
    region = gb(name)
    printed = pdf(card(region=region, firm_=firm(region=region.code)))
    assert reader(printed).trailer["/Root"]["/Lang"] == region.language

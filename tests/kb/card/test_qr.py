"""The code is held against ISO/IEC 18004: four modules of quiet zone, and what another library reads from it."""

import re
from io import BytesIO
from random import Random

import pytest
import typst
import zxingcpp
from PIL import Image, ImageFilter

from kb import keys
from kb.card import qr

ADDRESS = "https://heating.example/h/9EJFP-R992N-EKTAM"


def rendered(svg, tmp_path):
    (tmp_path / "qr.svg").write_text(svg)
    source = b'#set page(width: auto, height: auto, margin: 0mm)\n#image("qr.svg", width: 29mm)'
    (tmp_path / "qr.typ").write_bytes(source)
    return Image.open(BytesIO(typst.compile(str(tmp_path / "qr.typ"), format="png", ppi=200)))


def test_another_library_reads_the_address_and_finds_level_m_or_better(tmp_path):
    found = zxingcpp.read_barcode(rendered(qr.drawn(ADDRESS), tmp_path))
    assert found.text == ADDRESS
    assert found.ec_level in ("M", "Q", "H")


@pytest.mark.parametrize("seed", range(12))
def test_the_code_of_any_home_is_read_when_small_and_blurred(seed, tmp_path):
    address = f"https://heating.example/h/{keys.make(Random(seed))}"
    small = rendered(qr.drawn(address), tmp_path).resize((150, 150)).filter(ImageFilter.GaussianBlur(1))
    assert zxingcpp.read_barcode(small).text == address


def test_four_modules_around_the_code_are_empty(tmp_path):
    picture = rendered(qr.drawn(ADDRESS), tmp_path).convert("L")
    modules = int(re.search(r'viewBox="0 0 (\d+)', qr.drawn(ADDRESS))[1])
    dark = picture.point(lambda light: 255 if light < 128 else 0).getbbox()
    edge = 4 * picture.width / modules
    assert dark == pytest.approx((edge, edge, picture.width - edge, picture.width - edge), abs=1.5)


@pytest.mark.parametrize("length", [1, 40, 90, 140])
def test_an_address_fits_only_while_its_modules_are_half_a_millimetre(length):
    address = f"https://{'a' * length}.example/h/9EJFP-R992N-EKTAM"
    assert qr.fits(address, 29) is (qr.module_mm(address, 29) >= 0.5)


def test_a_usual_address_fits_and_an_endless_one_does_not():
    assert qr.fits(ADDRESS, 29)
    assert not qr.fits(ADDRESS + "x" * 150, 29)
    assert not qr.fits(ADDRESS + "x" * 5000, 29)

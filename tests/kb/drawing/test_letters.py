"""Widths are held against those of Pillow (FreeType), which sets the same files with other code."""

from io import BytesIO
from pathlib import Path

import fontpkg_atkinson_hyperlegible
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import ImageFont

from kb.drawing.letters import _subset, width, wrapped

FILES = Path(fontpkg_atkinson_hyperlegible.__file__).parent / "files"
TEXTS = ["The gauge did not move", "WAVE To Yes, it is 2.5 bar [from low]", "“Ends” · make it safe", "ill"]


@pytest.mark.parametrize("text", TEXTS)
@pytest.mark.parametrize(("strong", "file"), [(False, "Regular"), (True, "Bold")])
def test_words_are_as_wide_as_another_library_sets_them(text: str, strong: bool, file: str) -> None:
    font = ImageFont.truetype(FILES / f"AtkinsonHyperlegible-{file}.ttf", 1000)
    other = font.getlength(text) / 1000

    assert other <= width(text, 1, strong) <= other * 1.06


@given(st.text(st.characters(codec="utf-8", exclude_categories=("Cs",)), max_size=80), st.integers(20, 300))
def test_no_line_is_wider_than_it_may_be_and_no_letter_is_lost(text: str, most: int) -> None:
    lines = wrapped(text, most, 12)

    assert all(width(line, 12) <= most for line in lines)
    assert "".join("".join(lines).split()) == "".join(text.split())


def test_a_picture_brings_along_only_the_letters_it_shows() -> None:
    font = ImageFont.truetype(BytesIO(_subset(False, "abc")), 100)
    whole = ImageFont.truetype(FILES / "AtkinsonHyperlegible-Regular.ttf", 100)

    assert font.getlength("abc") == whole.getlength("abc")
    assert font.getmask("d").getbbox() != whole.getmask("d").getbbox()
    assert len(_subset(False, "abc")) < 6000


def test_the_same_letters_make_the_same_bytes() -> None:
    assert _subset(True, "abc") == _subset(True, "abc")

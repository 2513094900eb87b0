"""Contrast is held against WCAG 2.2 (1.4.3) as another library works it out, and against its own two limits."""

import pytest
import wcag_contrast_ratio
from hypothesis import given
from hypothesis import strategies as st

from kb.colour import TEXT, contrast, darkened, readable

colours = st.integers(0, 0xFFFFFF).map(lambda number: f"#{number:06x}")


def shares(colour):
    return tuple(int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5))


def test_black_on_white_is_twenty_one_to_one_and_a_colour_on_itself_one():
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21)
    assert contrast("#1d4e5f", "#1D4E5F") == 1


@given(colours, colours)
def test_another_library_finds_the_same(one, other):
    theirs = wcag_contrast_ratio.rgb(shares(one), shares(other))
    # That library keeps the limit of an older draft between its two formulas, which moves the ratio by very little.
    assert contrast(one, other) == pytest.approx(theirs, rel=1e-3)


@given(colours)
def test_a_darker_shade_has_the_contrast_asked_for(colour):
    assert contrast(darkened(colour, TEXT), "#FFFFFF") >= TEXT


def test_a_colour_that_is_dark_enough_stays_as_it_is():
    assert darkened("#1d4e5f", TEXT) == readable("#1d4e5f") == "#1d4e5f"


@pytest.mark.parametrize("colour", ["#767676", "#000000"])
def test_the_darkest_grey_that_just_holds_is_taken(colour):
    """#767676 on white is the well-known least grey of level AA, with 4.54 to 1."""
    assert readable(colour) == colour


def test_a_pale_colour_is_refused_with_its_ratio_the_needed_one_and_a_shade_that_has_it():
    with pytest.raises(
        ValueError, match=r"#ffcc00 on white paper has a contrast of 1\.5\d to 1.* 4\.5 to 1.*#"
    ) as told:
        readable("#ffcc00")
    suggested = str(told.value)[-7:]
    assert readable(suggested) == suggested


@pytest.mark.parametrize("written", ["teal", "#abc", "1d4e5f", "#1d4e5f00", "#1d4e5g", ""])
def test_what_is_no_colour_is_refused_as_it_was_written(written):
    with pytest.raises(ValueError, match=r"expected a colour like #1d4e5f"):
        readable(written)


def test_a_ground_on_which_nothing_can_be_read_is_refused():
    with pytest.raises(ValueError, match="Choose another"):
        darkened("#444444", TEXT, on="#333333")

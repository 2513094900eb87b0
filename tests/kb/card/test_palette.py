"""Contrast is held against the formula of WCAG 2.2 (1.4.3, 1.4.6, 1.4.11), as another library works it out."""

import pytest
import wcag_contrast_ratio

from kb.card import palette
from kb.card.palette import PAIRS


def shares(colour):
    return tuple(int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5))


@pytest.mark.parametrize("pair", PAIRS, ids=lambda pair: f"{pair.front} on {pair.back}")
def test_everything_that_is_read_or_means_something_stands_out(pair):
    assert wcag_contrast_ratio.rgb(shares(pair.front), shares(pair.back)) >= pair.at_least


def test_words_are_held_to_level_aaa_and_shapes_to_three_to_one():
    assert (palette.TEXT, palette.SHAPE) == (7.0, 3.0)
    assert {pair.at_least for pair in PAIRS} == {7.0, 3.0}


def test_every_colour_but_the_hairline_has_a_pair():
    known = {value for value in vars(palette).values() if isinstance(value, str) and value.startswith("#")}
    assert known - {pair.front for pair in PAIRS} - {pair.back for pair in PAIRS} == {palette.HAIR}

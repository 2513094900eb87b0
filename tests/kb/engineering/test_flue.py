"""The equivalent length of a flue, by hand."""

import pytest

from kb.engineering.flue import equivalent_length
from kb.engineering.span import CannotWork


def test_bends_count_as_the_maker_says() -> None:
    assert equivalent_length(3.5, 2, 1.0, 1, 0.5) == pytest.approx(6.0)


def test_a_flue_without_bends_is_its_straight_length() -> None:
    assert equivalent_length(4, 0, 1, 0, 0.5) == 4


def test_a_negative_length_is_refused() -> None:
    with pytest.raises(CannotWork, match="a straight length"):
        equivalent_length(-1, 0, 0, 0, 0)

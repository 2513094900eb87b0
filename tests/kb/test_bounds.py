import pytest

from kb.article import Bounds
from kb.bounds import with_figures
from kb.facts import GaugeMarks


@pytest.mark.parametrize(
    ("bounds", "words"),
    [
        (Bounds(None, False, "low", False), "under 0.8 bar"),
        (Bounds("low", True, "high", True), "0.8 to 1.8 bar"),
        (Bounds("high", False, None, False), "over 1.8 bar"),
        (Bounds(0.5, True, "low", False), "from 0.5 to just under 0.8 bar"),
        (Bounds(2.5, True, None, False), ""),
        (None, ""),
    ],
)
def test_marks_are_given_as_the_homes_figures(bounds: Bounds | None, words: str) -> None:
    assert with_figures(bounds, GaugeMarks(0.8, 1.2, 1.8)) == words

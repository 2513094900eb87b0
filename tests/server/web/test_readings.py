import pytest

from kb.article import Bounds
from kb.bounds import with_figures
from kb.facts import GaugeMarks
from server.web.readings import figure


@pytest.mark.parametrize(
    ("typed", "bar"),
    [("1.2", 1.2), ("1,2", 1.2), (" 0.6 bar ", 0.6), ("2", 2.0), (".8", 0.8), ("1.25 Bars", 1.25), ("0", 0.0)],
)
def test_a_figure_is_read_as_people_write_it(typed: str, bar: float) -> None:
    assert figure(typed) == bar


@pytest.mark.parametrize(
    "typed", ["", "about 1", "1.2.3", "-1", "1e3", "٣", "²", "1.2 psi", "123", "\x00", "nan", "inf"]
)
def test_anything_else_is_not_guessed_at(typed: str) -> None:
    assert figure(typed) is None


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

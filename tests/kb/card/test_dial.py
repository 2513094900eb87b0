from itertools import pairwise
from math import atan2, degrees, hypot
from pathlib import Path

import fontpkg_atkinson_hyperlegible
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import ImageFont

from kb.card.dial import CENTRE, HEIGHT, LETTERS, RADIUS, WIDTH, angle, arc, figure, labels, point
from kb.facts import EXTREME_MARKS, GaugeMarks

FONTS = Path(fontpkg_atkinson_hyperlegible.__file__).parent / "files"

bars = st.integers(60, 240).map(lambda hundredths: hundredths / 100)
POINTER = 9
"""How far the triangle at the mark to aim for stands out from the rim."""

any_marks = st.lists(bars, min_size=3, max_size=3, unique=True).map(lambda three: GaugeMarks(*sorted(three)))


@pytest.mark.parametrize(("bar", "degrees"), [(0, -135), (1, -67.5), (2, 0), (3, 67.5), (4, 135)])
def test_the_scale_is_three_quarters_of_a_turn_with_two_bar_at_the_top(bar, degrees):
    assert angle(bar) == pytest.approx(degrees)


@pytest.mark.parametrize(("bar", "pin"), [(-1, 0), (4.5, 4), (99, 4)])
def test_beyond_the_scale_the_needle_lies_on_its_pin(bar, pin):
    assert angle(bar) == angle(pin)


def test_straight_up_and_to_the_right_are_where_they_should_be():
    assert point(0, 10) == pytest.approx((CENTRE[0], CENTRE[1] - 10))
    assert point(90, 10) == pytest.approx((CENTRE[0] + 10, CENTRE[1]))


@given(st.floats(0, 4), st.floats(1, 60))
def test_a_point_lies_at_its_angle_and_distance(bar, radius):
    x, y = point(angle(bar), radius)
    assert hypot(x - CENTRE[0], y - CENTRE[1]) == pytest.approx(radius)
    assert degrees(atan2(x - CENTRE[0], CENTRE[1] - y)) == pytest.approx(angle(bar))


@pytest.mark.parametrize(("start", "end", "large"), [(0, 1, "0"), (0, 2.6, "0"), (0, 2.7, "1"), (0, 4, "1")])
def test_an_arc_takes_the_long_way_only_over_half_a_turn(start, end, large):
    assert arc(start, end, 50).split(" 0 ")[1][0] == large


@pytest.mark.parametrize(
    ("bar", "written"), [(1.0, "1.0"), (1.2, "1.2"), (0.85, "0.85"), (2, "2.0"), (1.23456, "1.23")]
)
def test_a_pressure_has_a_figure_after_the_point(bar, written):
    assert figure(bar) == written


@given(any_marks)
def test_the_words_of_the_marks_never_touch(marks):
    found = labels(marks)
    assert not any(one.covers(other) for one, other in pairwise(found))
    assert not found[0].covers(found[2])


@given(any_marks)
def test_the_words_of_the_marks_stay_in_the_picture_and_off_the_dial(marks):
    for label in labels(marks):
        (x, y), half, tall = label.middle, label.width / 2, label.letters / 2
        assert half <= x <= WIDTH - half
        assert tall <= y <= HEIGHT - tall
        nearest = hypot(max(abs(x - CENTRE[0]) - half, 0), max(abs(y - CENTRE[1]) - tall, 0))
        assert nearest >= RADIUS + (POINTER if label.words.startswith("aim") else 0)


@pytest.mark.parametrize("marks", [*EXTREME_MARKS, GaugeMarks(0.66, 1.44, 2.36)])
def test_the_words_take_no_more_room_than_is_reckoned_in_the_typefaces_own_widths(marks):
    for label in labels(marks):
        weight = "Bold" if label.letters > LETTERS else "Regular"
        face = ImageFont.truetype(FONTS / f"AtkinsonHyperlegible-{weight}.ttf", 100)
        assert face.getlength(label.words) * label.letters / 100 <= label.width


@pytest.mark.parametrize("marks", EXTREME_MARKS)
def test_the_words_keep_the_order_of_the_marks(marks):
    assert [label.words.split()[0] for label in sorted(labels(marks), key=lambda label: label.angle)] == [
        "low",
        "aim",
        "high",
    ]


def test_the_words_of_usual_marks_stand_at_their_marks():
    assert all(label.angle == label.mark for label in labels(GaugeMarks()))

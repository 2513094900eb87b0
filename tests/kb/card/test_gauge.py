import re
from xml.etree import ElementTree

import pytest

from kb.card import palette
from kb.card.dial import CENTRE, angle
from kb.card.gauge import described, drawn
from kb.facts import EXTREME_MARKS, GaugeMarks

SVG = "{http://www.w3.org/2000/svg}"


def needle(reading):
    """The needle's tip, from the drawing itself."""
    path = ElementTree.fromstring(drawn(GaugeMarks(), reading)).find(f".//{SVG}path[@class='gauge-needle']")
    return None if path is None else tuple(float(part) for part in path.get("d")[1:].split("L")[0].split())


def words(svg):
    return [text.text for text in ElementTree.fromstring(svg).iter(f"{SVG}text")]


def test_without_a_reading_there_is_no_needle():
    assert needle(None) is None


@pytest.mark.parametrize(("reading", "beside"), [(0.0, (-1, 1)), (1.0, (-1, -1)), (2.0, (0, -1)), (4.0, (1, 1))])
def test_the_needle_points_where_the_figure_stands(reading, beside):
    x, y = needle(reading)
    side = round((x - CENTRE[0]) / 100 * 3), round((y - CENTRE[1]) / 100 * 3)
    assert (side[0] > 0) - (side[0] < 0) == beside[0]
    assert (side[1] > 0) - (side[1] < 0) == beside[1]


def test_the_needle_of_a_reading_past_the_scale_rests_on_the_pin_and_the_figure_is_told():
    assert needle(6.0) == needle(4.0)
    assert "6.0 bar" in words(drawn(GaugeMarks(), 6.0))


@pytest.mark.parametrize(
    ("reading", "where"),
    [(0.7, "below the low mark"), (0.8, "between"), (1.8, "between"), (1.9, "above the high mark")],
)
def test_whoever_hears_it_is_told_where_the_needle_stands(reading, where):
    assert where in described(GaugeMarks(), reading)


def test_every_mark_is_named_with_its_figure():
    assert {"low 0.9", "aim 1.4", "high 2.1"} <= set(words(drawn(GaugeMarks(0.9, 1.4, 2.1))))


def test_the_band_is_safe_only_between_the_marks():
    bands = re.findall(r'class="gauge-(\w+)" d="M([\d.]+) ([\d.]+)A', drawn(GaugeMarks()))
    assert [band[0] for band in bands] == ["care", "safe", "care"]
    assert angle(0.8) < angle(1.8)
    assert bands[1][1:] != bands[2][1:]


def test_title_and_description_are_named_by_the_picture():
    svg = ElementTree.fromstring(drawn(GaugeMarks(), prefix="g7"))
    assert svg.get("aria-labelledby") == "g7-title g7-desc"
    assert svg.get("role") == "img"
    assert svg.find(f"{SVG}title[@id='g7-title']").text == "Pressure gauge"
    assert svg.find(f"{SVG}desc[@id='g7-desc']").text == described(GaugeMarks())


def test_two_gauges_on_a_page_share_no_id():
    ids = [set(re.findall(r' id="([^"]+)"', drawn(GaugeMarks(), prefix=prefix))) for prefix in ("a", "b")]
    assert not ids[0] & ids[1]


@pytest.mark.parametrize("reading", [None, 1.3])
def test_a_strict_content_security_policy_has_nothing_to_block(reading):
    svg = drawn(GaugeMarks(), reading)
    assert not re.search(r"\sstyle=|<style|<script|href|\son\w+=", svg)


@pytest.mark.parametrize("marks", EXTREME_MARKS)
def test_only_the_palettes_colours_are_used(marks):
    known = {value for value in vars(palette).values() if isinstance(value, str) and value.startswith("#")}
    assert set(re.findall(r"#[0-9A-Fa-f]{6}", drawn(marks, 1.0))) <= known


@pytest.mark.parametrize("reading", [float("nan"), float("inf")])
def test_what_is_no_figure_is_refused(reading):
    with pytest.raises(ValueError, match="reading in bar"):
        drawn(GaugeMarks(), reading)


@pytest.mark.parametrize("prefix", ["", "1a", 'a"b', "a b"])
def test_a_prefix_that_no_id_may_have_is_refused(prefix):
    with pytest.raises(ValueError, match="begin ids with"):
        drawn(GaugeMarks(), prefix=prefix)

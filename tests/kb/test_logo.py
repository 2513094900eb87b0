from io import BytesIO

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from kb.logo import LARGEST, Logo, beside, read_logo

OPEN = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 30 10">'


def svg(inside="<path d='M0 0h9v9z'/>", opening=OPEN):
    return f"{opening}{inside}</svg>".encode()


def png(width=300, height=200):
    saved = BytesIO()
    Image.new("RGB", (width, height), "#1d4e5f").save(saved, "PNG")
    return saved.getvalue()


def told(data):
    logo, findings = read_logo("logo.svg", data)
    assert logo is None
    assert all(finding.remedy for finding in findings)
    return [finding.found for finding in findings]


def test_a_drawing_is_taken_with_its_shape():
    logo, findings = read_logo("logo.svg", svg())
    assert (logo.width, logo.height, findings) == (30, 10, ())


def test_a_drawing_without_a_viewbox_has_the_shape_of_its_width_and_height():
    opening = '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="20mm">'
    assert read_logo("x.svg", svg(opening=opening))[0].width == 60


def test_pixels_are_wrapped_with_their_shape():
    logo, _ = read_logo("logo.png", png(300, 200))
    assert (logo.width, logo.height) == (300, 200)
    assert "data:image/png;base64," in logo.svg


@given(st.floats(0.2, 6), st.floats(5, 50), st.floats(5, 50))
def test_a_logo_is_never_stretched_and_never_outside_its_box(shape, width, height):
    across, down = Logo("", shape, 1).within(width, height)
    assert across / down == pytest.approx(shape)
    assert across <= width + 1e-9
    assert down <= height + 1e-9
    assert across == pytest.approx(width) or down == pytest.approx(height)


@pytest.mark.parametrize("data", [b"", b"GIF89a", b"<html/>", b"\xff\xd8\xff", b"<svg/>", svg()[:-4]])
def test_what_is_no_svg_and_no_png_is_told_so(data):
    assert told(data) == ["The file is neither a whole SVG nor a PNG."]


@pytest.mark.parametrize(
    ("inside", "found"),
    [
        ("<text>Any Heating</text>", "words as letters"),
        ("<script>alert(1)</script>", "a script"),
        ("<foreignObject/>", "a web page"),
        ("<image href='#a'/>", "a picture in a picture"),
        ("<use href='https://example.org/a.svg#b'/>", "outside its own file"),
        ("<path style='fill:url(https://example.org/a)'/>", "outside its own file"),
        ("<style>@import 'a.css';</style>", "outside its own file"),
    ],
)
def test_a_drawing_that_needs_more_than_itself_is_refused(inside, found):
    (only,) = told(svg(inside))
    assert found in only


def test_a_drawing_may_point_to_its_own_parts():
    assert read_logo("x.svg", svg("<path id='a' fill='url(#g)'/><use href='#a'/>"))[1] == ()


def test_everything_wrong_with_a_drawing_is_told_at_once():
    assert len(told(svg("<text/><script/>", '<svg xmlns="http://www.w3.org/2000/svg">'))) == 3


def test_a_document_type_is_refused_before_it_is_read():
    """Entities that hold entities can fill any memory (a well-known attack on readers of XML)."""
    assert "document type" in told(b'<!DOCTYPE svg [<!ENTITY a "aa">]>' + svg())[0]


@pytest.mark.parametrize("box", ["0 0 0 10", "0 0 10", "a b c d", "0 0 -3 4"])
def test_a_drawing_must_say_how_large_it_is(box):
    opening = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}">'
    assert told(svg(opening=opening)) == ["The SVG does not say how large it is."]


def test_a_line_is_no_logo():
    opening = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 10">'
    assert "10.0 times" in told(svg(opening=opening))[0]


@pytest.mark.parametrize(("width", "height"), [(300, 100), (50, 50), (5000, 1000)])
def test_pixels_must_be_enough_and_not_too_many(width, height):
    assert f"{width} by {height} pixels" in told(png(width, height))[0]


@pytest.mark.parametrize("cut", [20, 100])
def test_half_a_png_is_told_so(cut):
    assert told(png()[:cut]) == ["The file begins as a PNG and is not whole."]


def test_a_file_may_be_as_large_as_the_limit_and_no_larger():
    fits = svg() + b" " * (LARGEST - len(svg()))
    assert read_logo("x.svg", fits)[1] == ()
    assert "at most 256 kB" in told(fits + b" ")[0]


@pytest.mark.parametrize("name", ["logo.svg", "our logo-2.PNG"])
def test_a_logo_lies_beside_the_firms_file(name):
    assert beside(name) == name


@pytest.mark.parametrize("name", ["../logo.svg", "/etc/logo.svg", "a/b.png", "logo.jpg", ".svg", "logo", "a\nb.svg"])
def test_any_other_place_or_kind_is_refused(name):
    with pytest.raises(ValueError, match="beside this one"):
        beside(name)

"""Colours of the pages by the WCAG 2.2 contrast formula, with another library's figures beside ours."""

import re

import pytest
import wcag_contrast_ratio

from server.web.static import stylesheet

COLOURS = dict(re.findall(r"--(\w+): (#[0-9a-f]{6})", stylesheet().body.decode())) | {"white": "#ffffff"}
TEXT = [
    *(("ink", ground) for ground in ("paper", "sheet", "white")),
    *(("soft", ground) for ground in ("paper", "sheet")),
    *(("white", ground) for ground in ("red", "green")),
    ("sheet", "ink"),
]
GRAPHICS = [("green", "sheet"), ("red", "sheet"), ("blue", "sheet"), ("ink", "paper")]


def channels(colour: str) -> tuple[float, ...]:
    return tuple(int(COLOURS[colour][place : place + 2], 16) / 255 for place in (1, 3, 5))


def luminance(colour: str) -> float:
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels(colour)]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


@pytest.mark.parametrize(("words", "ground"), TEXT)
def test_words_stand_out(words: str, ground: str) -> None:
    assert contrast(words, ground) >= 4.5  # WCAG 1.4.3
    assert contrast(words, ground) == pytest.approx(
        wcag_contrast_ratio.rgb(channels(words), channels(ground)), rel=1e-3
    )


@pytest.mark.parametrize(("line", "ground"), GRAPHICS)
def test_borders_that_mean_something_stand_out(line: str, ground: str) -> None:
    assert contrast(line, ground) >= 3  # WCAG 1.4.11


def test_colours_of_safety_are_those_of_the_standard() -> None:
    # ISO 3864-4, approximated by RAL 3001, 1003, 6032 and 5005.
    assert [COLOURS[name] for name in ("red", "yellow", "green", "blue")] == [
        "#9b2423",
        "#f9a900",
        "#237f52",
        "#005387",
    ]


def test_the_style_sheet_fetches_nothing_from_elsewhere() -> None:
    addresses = re.findall(r"url\(([^)]*)\)", stylesheet().body.decode())

    assert addresses
    assert all(address.startswith("/static/") for address in addresses)
    assert "@import" not in stylesheet().body.decode()

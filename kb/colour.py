"""How well do two colours stand out from each other?"""

import re
from typing import Final

COLOUR: Final = re.compile(r"#[0-9a-fA-F]{6}")
"""A colour as it is written: # and six hexadecimal figures."""

PAPER: Final = "#FFFFFF"

TEXT: Final = 4.5
"""The least contrast of words (WCAG 2.2, 1.4.3, level AA)."""


def contrast(one: str, other: str) -> float:
    """The contrast ratio of two colours, from 1 to 21, as WCAG 2.2 works it out."""
    darker, lighter = sorted((_luminance(one), _luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def darkened(colour: str, ratio: float, on: str = PAPER) -> str:
    """The colour, or the lightest darker shade of it, whose contrast on another is at least this ratio.

    Raises ValueError where even black has less.
    """
    for hundredths in range(100, -1, -1):
        shade = "#" + "".join(f"{int(part * hundredths / 100):02x}" for part in _parts(colour))
        if contrast(shade, on) >= ratio:
            return shade
    raise ValueError(f"Expected a lighter ground than {on}: no colour has {ratio:g} to 1 on it. Choose another.")


def readable(written: str) -> str:
    """A colour that words may be printed in on white paper.

    Raises ValueError, with the ratio, the needed one and a shade that has it.
    """
    if not COLOUR.fullmatch(written):
        raise ValueError(f"expected a colour like #1d4e5f, found {written!r}")
    found = contrast(written, PAPER)
    if found < TEXT:
        raise ValueError(
            f"{written} on white paper has a contrast of {found:.2f} to 1, and words need {TEXT:g} to 1; "
            f"choose a darker one, for example {darkened(written, TEXT)}"
        )
    return written


def _parts(colour: str) -> tuple[int, ...]:
    return tuple(int(colour[at : at + 2], 16) for at in (1, 3, 5))


def _luminance(colour: str) -> float:
    red, green, blue = (_linear(part / 255) for part in _parts(colour))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(share: float) -> float:
    return share / 12.92 if share <= 0.04045 else float(((share + 0.055) / 1.055) ** 2.4)

"""How wide are words in the project's typeface, where must they be broken, and which letters does a picture carry?

The only module that knows fontTools.
"""

from base64 import b64encode
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from io import BytesIO
from pathlib import Path
from typing import Final

import fontpkg_atkinson_hyperlegible

FAMILY: Final = "Atkinson Hyperlegible"

_FOLDER: Final = Path(fontpkg_atkinson_hyperlegible.__file__).parent / "files"
_SLACK: Final = 1.01


@dataclass(frozen=True, slots=True)
class _Face:
    """The advance of each character in shares of the letters' size, and of one that the face lacks."""

    advances: Mapping[int, float]
    otherwise: float


def width(words: str, size: float, strong: bool = False) -> float:
    """How wide the words are, set in one line; kerning, which mostly draws letters together, is left out."""
    face = _face(strong)
    return _SLACK * size * sum(face.advances.get(ord(letter), face.otherwise) for letter in words)


def wrapped(words: str, most: float, size: float, strong: bool = False) -> tuple[str, ...]:
    """The words in lines that are no wider than `most`; a word that is wider by itself is cut."""
    lines: list[str] = []
    for piece in (part for word in words.split() for part in _cut(word, most, size, strong)):
        longer = f"{lines[-1]} {piece}" if lines else piece
        if lines and width(longer, size, strong) <= most:
            lines[-1] = longer
        else:
            lines.append(piece)
    return tuple(lines)


def embedded(letters: str) -> Iterator[str]:
    """CSS that brings along both weights of the typeface, with no more letters than these."""
    for strong in (False, True):
        weight = 700 if strong else 400
        data = b64encode(_subset(strong, "".join(sorted(set(letters))))).decode()
        yield (
            f'@font-face{{font-family:"{FAMILY}";font-weight:{weight};src:url(data:font/ttf;base64,{data}) '
            'format("truetype")}'
        )


def _cut(word: str, most: float, size: float, strong: bool) -> Iterator[str]:
    while word and width(word, size, strong) > most:
        fits = next((end for end in range(len(word), 1, -1) if width(word[:end], size, strong) <= most), 1)
        yield word[:fits]
        word = word[fits:]
    if word:
        yield word


def _file(strong: bool) -> Path:
    return _FOLDER / f"AtkinsonHyperlegible-{'Bold' if strong else 'Regular'}.ttf"


@cache
def _face(strong: bool) -> _Face:
    from fontTools.ttLib import TTFont

    with TTFont(_file(strong), lazy=True) as font:
        units = font["head"].unitsPerEm
        metrics = font["hmtx"].metrics
        advances = {code: metrics[name][0] / units for code, name in font.getBestCmap().items()}
    return _Face(advances, max(advances.values()))


def _subset(strong: bool, letters: str) -> bytes:
    from fontTools.subset import Options, Subsetter
    from fontTools.ttLib import TTFont

    # A font that says when it was cut down would make the same tree another file each time.
    with TTFont(_file(strong), recalcTimestamp=False) as font:
        cutter = Subsetter(Options(layout_features=["kern"], notdef_outline=True))
        cutter.populate(text=letters)
        cutter.subset(font)
        kept = BytesIO()
        font.save(kept)
    return kept.getvalue()

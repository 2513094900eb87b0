"""Which characters does a seven-segment display show alike, and how far apart are two of them?

A shape is seven bits, the lowest the segment a at the top, then clockwise b to f, and g across the middle.
The shapes of 0 to F are the published ones; no standard fixes the other letters, so they are as displays commonly
show them (common practice), and a character with several shapes has them all.
"""

from collections.abc import Callable, Iterator, Mapping
from functools import cache
from itertools import product
from types import MappingProxyType
from typing import Final

SHAPES: Final[Mapping[str, tuple[int, ...]]] = MappingProxyType(
    {
        "0": (0x3F,),
        "1": (0x06, 0x30),
        "2": (0x5B,),
        "3": (0x4F,),
        "4": (0x66,),
        "5": (0x6D,),
        "6": (0x7D, 0x7C),
        "7": (0x07, 0x27),
        "8": (0x7F,),
        "9": (0x6F, 0x67),
        "A": (0x77, 0x5F),
        "B": (0x7C, 0x7F),
        "C": (0x39, 0x58),
        "D": (0x5E, 0x3F),
        "E": (0x79,),
        "F": (0x71,),
        "G": (0x3D, 0x6F),
        "H": (0x76, 0x74),
        "I": (0x06, 0x30, 0x04),
        "J": (0x1E, 0x0E),
        "L": (0x38, 0x30),
        "N": (0x37, 0x54),
        "O": (0x3F, 0x5C),
        "P": (0x73,),
        "Q": (0x67, 0x3F),
        "R": (0x50, 0x77),
        "S": (0x6D,),
        "T": (0x78, 0x07),
        "U": (0x3E, 0x1C),
        "Y": (0x6E,),
        "Z": (0x5B,),
        "-": (0x40,),
    }
)
"""Every shape that a character may have on the display."""

_TURNED: Final = (3, 4, 5, 0, 1, 2, 6)
"""Where each segment lies when the display is read from the other side."""


def distance(one: int, other: int) -> int:
    """How many segments differ between two shapes."""
    return (one ^ other).bit_count()


def turned(shape: int) -> int:
    """A shape as it looks upside-down."""
    return sum(1 << _TURNED[segment] for segment in range(7) if shape >> segment & 1)


def apart(seen: str, shown: str) -> int | None:
    """How many segments must be wrong for one text to be seen as the other, at the least.

    None where they cannot be compared: another length, or a character that no display of this kind shows.
    """
    if not _comparable(seen, shown):
        return None
    return sum(
        min(distance(one, other) for one, other in product(SHAPES[a], SHAPES[b]))
        for a, b in zip(seen, shown, strict=True)
    )


def upside_down(seen: str, shown: str) -> bool:
    """Whether what was seen is what is shown, read from the other side."""
    if not _comparable(seen, shown):
        return False
    return all(
        any(turned(one) == other for one, other in product(SHAPES[a], SHAPES[b]))
        for a, b in zip(reversed(seen), shown, strict=True)
    )


def characters_of(shape: int) -> Iterator[str]:
    """Every character that may be meant by a shape."""
    return (character for character, shapes in SHAPES.items() if shape in shapes)


@cache
def taken_for(shape: int) -> frozenset[str]:
    """What a person reads in a shape: the characters that have it, or else the nearest ones."""
    exact = frozenset(characters_of(shape))
    if exact:
        return exact
    far = {character: min(distance(shape, each) for each in shapes) for character, shapes in SHAPES.items()}
    return frozenset(character for character, apart in far.items() if apart == min(far.values()))


def one_segment_wrong(seen: str, shown: str) -> bool:
    """Whether one segment, stuck dark or lit in one place, makes what is shown look like what was seen."""
    if not _comparable(seen, shown):
        return False
    wrong = [place for place, (a, b) in enumerate(zip(seen, shown, strict=True)) if a not in _same(b)]
    if not wrong:
        return True
    return len(wrong) == 1 and seen[wrong[0]] in _with_one_wrong(shown[wrong[0]])


def one_line_wrong(seen: str, shown: str) -> bool:
    """Whether the same segment, dark or lit in every place, makes what is shown look like what was seen."""
    if not _comparable(seen, shown):
        return False
    pairs = list(zip(seen, shown, strict=True))
    return any(all(a in _with_line(b, segment, lit) for a, b in pairs) for segment in range(7) for lit in (False, True))


def _comparable(seen: str, shown: str) -> bool:
    return len(seen) == len(shown) and all(character in SHAPES for character in seen + shown)


@cache
def _same(shown: str) -> frozenset[str]:
    return _seen_through(shown, lambda shape: shape)


@cache
def _with_one_wrong(shown: str) -> frozenset[str]:
    return frozenset().union(*(_with_line(shown, segment, lit) for segment in range(7) for lit in (False, True)))


@cache
def _with_line(shown: str, segment: int, lit: bool) -> frozenset[str]:
    """What a character is taken for with one segment dark, or lit, whatever it should be."""
    line = 1 << segment
    return _seen_through(shown, lambda shape: shape | line if lit else shape & ~line)


def _seen_through(shown: str, fault: Callable[[int], int]) -> frozenset[str]:
    return frozenset().union(*(taken_for(fault(shape)) for shape in SHAPES[shown]))

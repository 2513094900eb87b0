"""Shapes and look-alikes against the published seven-segment encoding of 0 to F, segments g to a."""

from itertools import combinations, pairwise
from pathlib import Path

import pytest

from kb.appliance import Display
from kb.codes import candidates, normalise
from kb.ranges import load_ranges
from kb.segments import SHAPES, apart, characters_of, distance, turned, upside_down

PUBLISHED = [0x3F, 0x06, 0x5B, 0x4F, 0x66, 0x6D, 0x7D, 0x07, 0x7F, 0x6F, 0x77, 0x7C, 0x39, 0x5E, 0x79, 0x71]
RANGES, _ = load_ranges(Path(__file__).parents[2] / "demo/ranges")
CODES = [
    (family, code) for family in RANGES.values() if family.display is Display.SEVEN_SEGMENT for code in family.codes
]


def test_the_first_shape_of_every_hexadecimal_digit_is_the_published_one() -> None:
    assert [SHAPES[character][0] for character in "0123456789ABCDEF"] == PUBLISHED


def test_pairs_one_segment_apart_are_the_published_pairs() -> None:
    shapes = dict(zip("0123456789AbCdEF", PUBLISHED, strict=True))

    near = {f"{a}-{b}" for a, b in combinations(shapes, 2) if distance(shapes[a], shapes[b]) == 1}

    assert near == {"0-8", "1-7", "3-9", "5-6", "5-9", "6-8", "6-b", "6-E", "8-9", "8-A", "C-E", "E-F"}


@pytest.mark.parametrize("pair", ["0O", "5S", "2Z", "6B", "9Q", "0D", "8B"])
def test_characters_with_one_shape_are_not_apart(pair: str) -> None:
    assert apart(pair[0], pair[1]) == 0


@pytest.mark.parametrize("pair", ["69", "E3", "L7", "H4", "DP", "00", "22", "55", "88"])
def test_what_turns_into_what(pair: str) -> None:
    # Common practice: 6 and 9, E and 3, L and 7, h and 4, d and P; 0, 1, 2, 5 and 8 read the same.
    assert upside_down(pair[0], pair[1])
    assert upside_down(pair[1], pair[0])


def test_turning_twice_changes_nothing() -> None:
    assert all(turned(turned(shape)) == shape for shape in range(128))


def test_texts_of_another_length_cannot_be_compared() -> None:
    assert apart("1", "12") is None
    assert not upside_down("1", "12")


@pytest.mark.parametrize(("family", "code"), CODES, ids=lambda each: getattr(each, "code", ""))
def test_with_any_one_segment_wrong_the_true_code_is_among_the_candidates(family, code) -> None:
    shown = normalise(code.code)
    tried = 0
    for place, character in enumerate(shown):
        for shape in SHAPES[character]:
            for segment in range(7):
                for seen in characters_of(shape ^ 1 << segment):
                    typed = shown[:place] + seen + shown[place + 1 :]
                    assert code in [reading.code for reading in candidates(typed, [family])], typed
                    tried += 1
    assert tried


def test_the_surest_reading_comes_first_and_no_doubt_is_dropped() -> None:
    for family, code in CODES:
        readings = candidates(code.code, [family])
        assert readings[0].code == code
        assert all(one.certainty >= other.certainty for one, other in pairwise(readings))

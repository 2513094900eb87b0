"""Shapes and look-alikes against the published seven-segment encoding of 0 to F, segments g to a."""

from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise, product
from pathlib import Path

import pytest

from kb.appliance import Display
from kb.codes import candidates, normalise
from kb.ranges import load_ranges
from kb.segments import SHAPES, apart, characters_of, distance, taken_for, turned, upside_down
from tests.kb.test_codes import family as a_range

PUBLISHED = [0x3F, 0x06, 0x5B, 0x4F, 0x66, 0x6D, 0x7D, 0x07, 0x7F, 0x6F, 0x77, 0x7C, 0x39, 0x5E, 0x79, 0x71]
RANGES, _ = load_ranges(Path(__file__).parents[2] / "demo/ranges")
# Letters and figures as a display of seven segments can show them; no range of the demo has both.
LETTERS = a_range(
    "letters",
    **dict.fromkeys(
        ["A08", "B3", "C55", "D9", "EP", "H7", "J66", "L0", "N4", "O2", "P81", "R1", "T20", "U5", "Y6", "CH"],
        "overheat",
    ),
)
CODES = [
    (family, code)
    for family in (*RANGES.values(), LETTERS)
    if family.display is Display.SEVEN_SEGMENT
    for code in family.codes
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


def drawn(code: str) -> Iterator[tuple[int, ...]]:
    """Every way in which a display may draw a code, as one shape a place."""
    return product(*(SHAPES[character] for character in normalise(code)))


def read(shapes: Sequence[int]) -> Iterator[str]:
    """Everything a person may type who sees these shapes; a shape that is no character is taken for the nearest."""
    for seen in product(*(sorted(taken_for(shape)) for shape in shapes)):
        yield "".join(seen)


@pytest.mark.parametrize(("family", "code"), CODES, ids=lambda each: getattr(each, "shown", ""))
def test_with_any_one_segment_stuck_the_true_code_is_among_the_candidates(family, code) -> None:
    tried = 0
    for shapes in drawn(code.code):
        for place, segment, lit in product(range(len(shapes)), range(7), (False, True)):
            stuck = shapes[place] | 1 << segment if lit else shapes[place] & ~(1 << segment)
            for typed in read([*shapes[:place], stuck, *shapes[place + 1 :]]):
                assert code in [reading.code for reading in candidates(typed, [family])], typed
                tried += 1
    assert tried >= 28


@pytest.mark.parametrize(("family", "code"), CODES, ids=lambda each: getattr(each, "shown", ""))
def test_with_one_segment_stuck_in_every_place_the_true_code_is_among_the_candidates(family, code) -> None:
    for shapes in drawn(code.code):
        for segment, lit in product(range(7), (False, True)):
            stuck = [shape | 1 << segment if lit else shape & ~(1 << segment) for shape in shapes]
            for typed in read(stuck):
                assert code in [reading.code for reading in candidates(typed, [family])], typed


def test_there_are_seven_segment_codes_to_try_with_figures_and_with_letters() -> None:
    assert {"marlpit-c", "letters"} <= {family.id for family, _ in CODES}
    assert len(CODES) >= 40


def test_a_shape_that_is_no_character_is_taken_for_the_nearest() -> None:
    # 4 without its upper left segment is no character; what is one segment from it may be read.
    assert not list(characters_of(0x46))
    assert "1" in taken_for(0x46)
    assert all(min(distance(0x46, shape) for shape in SHAPES[each]) == 1 for each in taken_for(0x46))


def test_the_surest_reading_comes_first_and_no_doubt_is_dropped() -> None:
    for family, code in CODES:
        readings = candidates(code.code, [family])
        assert readings[0].code == code
        assert all(one.certainty >= other.certainty for one, other in pairwise(readings))

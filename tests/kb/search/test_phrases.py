"""Do the concepts alone, without any article's own words, lead people's phrases to the right category?

The phrases are our own; each may have more than one right category.
"""

import csv
from collections.abc import Iterator
from pathlib import Path

import pytest

from kb.search.evidence import dangers, points
from kb.search.figures import load_figures
from kb.search.reader import Reader, Reading
from kb.search.vocabulary import load

DANGEROUS = {"gas-smell", "carbon-monoxide"}
VOCABULARY = load()


def phrases() -> Iterator[dict[str, str]]:
    with (Path(__file__).parent / "phrases.tsv").open(encoding="utf-8", newline="") as file:
        yield from csv.DictReader(file, delimiter="\t", quoting=csv.QUOTE_NONE)


@pytest.fixture(scope="module")
def read() -> list[tuple[dict[str, str], Reading]]:
    reader = Reader(VOCABULARY, load_figures())
    return [(phrase, reader.read(phrase["query"])) for phrase in phrases()]


def share_within(read: list[tuple[dict[str, str], Reading]], first: int) -> float:
    right = [
        bool({phrase["label"], *phrase["also_ok"].split(",")} & set(best(reading)[:first]))
        for phrase, reading in read
        if phrase["label"] != "other"
    ]
    return sum(right) / len(right)


def best(reading: Reading) -> list[str]:
    found = points(reading, VOCABULARY)
    return sorted(found, key=lambda category: (-found[category], category))


def test_the_first_is_right_for_at_least_95_in_100(read):
    assert share_within(read, 1) >= 0.95


def test_the_right_one_is_among_the_first_three_for_at_least_99_in_100(read):
    assert share_within(read, 3) >= 0.99


def test_danger_is_seen_in_every_phrase_that_is_one(read):
    dangerous = [(phrase, reading) for phrase, reading in read if phrase["label"] in DANGEROUS]
    assert len(dangerous) > 100
    assert [phrase["query"] for phrase, reading in dangerous if not dangers(reading, VOCABULARY)] == []


def test_danger_is_shown_for_at_most_1_in_100_of_the_others(read):
    shown = [bool(dangers(reading, VOCABULARY)) for phrase, reading in read if phrase["label"] not in DANGEROUS]
    assert sum(shown) / len(shown) <= 0.01

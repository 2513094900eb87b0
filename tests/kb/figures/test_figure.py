import csv as reference
from io import StringIO

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kb.figures.figure import Bars, Figure, Share, Table, csv, percent, written

CELLS = st.text(st.characters(exclude_categories=["Cs", "Cc"])) | st.integers() | st.none()


def figure(cases: int, a_list: bool = False) -> Figure:
    return Figure("some", "Some", "It goes.", cases, "calls", Bars(()), Table((), ()), a_list=a_list)


@pytest.mark.parametrize(
    ("cases", "words"),
    [
        (0, "There is nothing to count yet."),
        (1, "Behind this: only 1 call. Fewer than 30 are too few to mean anything (common practice)."),
        (29, "Behind this: only 29 calls. Fewer than 30 are too few to mean anything (common practice)."),
        (30, "Behind this: 30 calls."),
        (1234, "Behind this: 1,234 calls."),
    ],
)
def test_every_figure_says_how_many_cases_stand_behind_it_and_whether_they_are_too_few(cases: int, words: str) -> None:
    assert figure(cases).behind == words
    assert words in figure(cases).description


def test_a_list_of_things_to_do_is_never_too_short() -> None:
    assert figure(3).few
    assert not figure(3, a_list=True).few


@pytest.mark.parametrize(
    ("part", "whole", "words"),
    [(0, 9, "0%"), (1, 1000, "under 1%"), (999, 1000, "over 99%"), (9, 9, "100%"), (1, 3, "33%"), (0, 0, "none")],
)
def test_a_share_is_nothing_or_everything_only_where_it_is(part: int, whole: int, words: str) -> None:
    assert percent(part, whole) == words


def test_a_table_is_written_for_people_and_for_spreadsheets() -> None:
    table = Table(("A", "B"), (("x", 1234), (Share(0.125), -3.25), (None, "=1+1")))

    assert list(written(table)) == [("x", "1,234"), ("12.5%", "−3.2"), ("–", "=1+1")]
    assert csv(table) == "A,B\r\nx,1234\r\n0.1250,-3.2\r\n,'=1+1\r\n"


@given(rows=st.lists(st.tuples(CELLS, CELLS), max_size=5))
def test_the_file_is_read_back_by_another_reader(rows) -> None:
    """The reference is the standard library's reader."""
    read = list(reference.reader(StringIO(csv(Table(("A", "B"), tuple(rows))), newline="")))

    assert [len(row) for row in read] == [2] * (len(rows) + 1)
    for row, cells in zip(read[1:], rows, strict=True):
        assert [each.removeprefix("'") for each in row] == [
            "" if cell is None else str(cell).removeprefix("'") for cell in cells
        ]


@pytest.mark.parametrize("words", ["=1+1", "+1", "-1", "@x", "\tx"])
def test_no_cell_is_run_by_a_spreadsheet(words: str) -> None:
    """The signs are those the Open Worldwide Application Security Project names under CSV injection (from memory)."""
    assert "'" + words in csv(Table(("A",), ((words,),)))

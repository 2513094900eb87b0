"""A table of homes, read back as it was written, and everything told that is wrong with one."""

import csv
import io
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kb.listing import COLUMNS, TEMPLATE, listing, read_listing
from kb.listing.columns import in_order, name_of, path_of
from kb.listing.guard import guarded, unguarded
from kb.listing.reading import decoded
from kb.register import Person, Record
from tests.registers import FIRST, SECOND, TODAY, anna, record


def table(*records):
    return "".join(listing(records, "GB"))


def problems(text):
    """Row, column and what was expected, of everything that is wrong."""
    read = read_listing(text)
    found = [*read.problems]
    for row in read.rows:
        found += [row.problem(each) for each in row.over(Record(FIRST, ()), "GB", TODAY).mistakes]
    return [(each.row, each.column) for each in found]


def test_a_table_is_read_back_as_it_was_written():
    read = read_listing(table(record(), record(SECOND, anna())))
    assert read.problems == ()
    assert [row.over(Record(row.key, ()), "GB", TODAY).record for row in read.rows] == [
        record(),
        record(SECOND, anna()),
    ]


def test_a_table_has_the_form_of_rfc_4180_and_opens_in_a_spreadsheet():
    text = table(record())
    assert text.startswith("\ufeffKey,Address 1,")
    assert text.endswith("\r\n")
    assert len(list(csv.reader(io.StringIO(text)))) == 2


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_the_first_row_tells_what_stands_between_cells(separator, mark):
    text = mark + separator.join(["Town", "postcode", "APPLIANCE 1 PLATE"]) + "\n"
    [row] = read_listing(text + separator.join(["Ash, upon; Tyne" if separator == "\t" else "Ashcombe", "q", "C"])).rows
    assert row.written["appliances[0].plate"] == "C"


def test_commas_in_words_do_not_part_cells_of_a_table_with_semicolons():
    [row] = read_listing("Address 1;Town;Appliance 1 plate\n1, Mill Lane, by, the, mill;Ashcombe;C 28\n").rows
    assert row.written["address.lines[0]"] == "1, Mill Lane, by, the, mill"


@pytest.mark.parametrize("formula", ["=1+1", "+44", "-5", "@x", "'=1", "''-", "'quoted'", "plain", ""])
def test_nothing_in_a_table_is_run_by_a_spreadsheet_and_all_comes_back(formula):
    assert not guarded(formula).startswith(("=", "+", "-", "@"))
    assert unguarded(guarded(formula)) == formula


@given(st.text(alphabet="'=+-@a1 "))
def test_a_guarded_cell_always_comes_back(words):
    assert unguarded(guarded(words)) == words


def test_a_name_that_would_be_a_formula_survives_the_round():
    hostile = record(FIRST, Person('=HYPERLINK("x")'), street="'@1 Mill Lane")
    text = table(hostile)
    assert "'=HYPERLINK" in text
    [row] = read_listing(text).rows
    assert row.over(Record(FIRST, ()), "GB", TODAY).record == hostile


def test_every_problem_is_told_by_row_and_column():
    text = (
        "Key,Town,Address 1,Postcode,Appliance 1 plate,Person 1 name,Person 1 phone 2,Person 1 need 1\n"
        "wrong,Ashcombe,1 Mill Lane,ZZ99 3WZ,C 28,Anna,,\n"
        ",Ashcombe,1 Mill Lane,nowhere,,Anna,12,\n"
        f"{FIRST},Ashcombe,1 Mill Lane,ZZ99 3WZ,C 28,Anna,,over-65\n"
        f"{FIRST},Ashcombe,1 Mill Lane,ZZ99 3WZ,C 28,Anna,,,surplus\n"
    )
    assert sorted(problems(text)) == [
        (2, "Key"),
        (3, "Appliance 1 plate"),
        (3, "Person 1 phone 2"),
        (3, "Postcode"),
        (4, "Person 1 need 1 agreed"),
        (5, "Key"),
        (5, "column 9"),
    ]


def test_a_column_that_there_is_not_is_told_with_the_likely_one_and_the_rows_are_checked_all_the_same():
    text = "Town,Person 1 fone 1,Shoe size,Town,Appliance 1 plate,Postcode,Address 1\nA,,,,C 28,q,1 Mill Lane\n"
    read = read_listing(text)
    assert [(each.row, each.column) for each in read.problems] == [
        (1, "Person 1 fone 1"),
        (1, "Shoe size"),
        (1, "Town"),
    ]
    assert "Did you mean Person 1 phone 1?" in str(read.problems[0])
    assert (2, "Postcode") in problems(text)


def test_a_table_of_new_homes_without_plates_is_told_so_once():
    assert problems("Town\nAshcombe\nAshcombe\n")[0] == (1, "Appliance 1 plate")
    assert read_listing("Key,Town\n" + f"{FIRST},Ashcombe\n").problems == ()


@pytest.mark.parametrize("text", ["", "\n", "Town,Appliance 1 plate\n"])
def test_a_table_without_homes_is_told(text):
    assert read_listing(text).problems


def test_letters_that_are_not_utf_8_are_told_with_what_to_do():
    [problem] = read_listing(decoded("Town,Appliance 1 plate\nCafé,C 28\n".encode("latin-1"))).problems
    assert (problem.row, "UTF-8" in problem.next_step) == (2, True)


def test_a_quotation_mark_without_its_other_half_is_told():
    assert (2, "") in problems('Town,Appliance 1 plate\nA"b","c"d\n"never closed\n')


def test_empty_rows_are_passed_over_and_the_others_keep_their_numbers():
    read = read_listing("Town,Appliance 1 plate\n,\n\nAshcombe,C 28\n")
    assert [row.number for row in read.rows] == [4]


@pytest.mark.parametrize("column", COLUMNS, ids=lambda column: column.path)
def test_every_column_is_known_by_its_name_in_any_writing(column):
    path = column.path.replace("[n]", "[2]").replace("[m]", "[11]")
    name = name_of(path)
    assert path_of(name) == path_of(name.upper().replace(" ", "_")) == path
    assert column.expects


def test_columns_stand_in_the_order_of_items_and_then_of_their_fields():
    assert in_order(
        ["people[1].name", "people[0].phones[10]", "people[0].phones[2]", "key", "people[0].needs[0].kind"]
    ) == (
        "key",
        "people[0].phones[2]",
        "people[0].phones[10]",
        "people[0].needs[0].kind",
        "people[1].name",
    )


def test_the_template_can_be_read():
    names = [name_of(path) for path in TEMPLATE]
    assert [problem.row for problem in read_listing(",".join(names)).problems] == [2]
    assert {path_of(name) for name in names} == set(TEMPLATE)


def test_a_record_without_people_or_address_is_written_too():
    bare = replace(record(), address=None, people=(), alarms=())
    [row] = read_listing(table(bare)).rows
    assert row.over(Record(FIRST, ()), "GB", TODAY).record == bare

"""The office's commands as a person runs them."""

from datetime import date

import pytest

from kb.listing import COLUMNS
from tests.listings import generated
from tests.registers import FIRST, SECOND, anna, record
from tests.server.commands.running import run


@pytest.fixture
def home(machine):
    assert machine.register.put(record(), "test") == ()
    return machine.register


def test_a_table_is_looked_at_imported_and_exported_alike(machine, tmp_path):
    table, first, second = (tmp_path / name for name in ("homes.csv", "first.csv", "second.csv"))
    table.write_text(generated(20), encoding="utf-8")
    said = "20 new homes, 0 changed, 0 as they were.\n"
    assert run("homes", "import", str(table), "--dry-run")[:2] == (
        0,
        f"Nothing is wrong, and nothing was written: {said}",
    )
    assert machine.homes() == ()
    assert run("homes", "import", str(table))[:2] == (0, f"Imported: {said}")
    assert run("homes", "export", str(first))[:2] == (0, f"Wrote 20 homes to {first}.\n")
    assert run("homes", "import", str(first))[:2] == (0, "Imported: 0 new homes, 0 changed, 20 as they were.\n")
    run("homes", "export", str(second))
    assert first.read_bytes() == second.read_bytes()


def test_every_problem_is_told_and_nothing_is_imported(machine, tmp_path):
    table = tmp_path / "homes.csv"
    table.write_text(
        generated(20).replace("07700 900003", "77").replace("Fuel,", "Feul,"),
        encoding="utf-8",
    )
    status, said, aside = run("homes", "import", str(table))
    assert status == 1
    assert [line.partition(": ")[0] for line in said.splitlines()] == ["Row 1, Feul", "Row 5, Person 1 phone 1"]
    assert "Nothing was imported." in aside
    assert machine.homes() == ()


def test_a_file_that_is_not_there_is_told(machine, tmp_path):
    assert run("homes", "import", str(tmp_path / "none.csv"))[0] == 2
    assert run("homes", "export", str(tmp_path / "none" / "x.csv"))[0] == 2


def test_a_template_is_written_and_every_column_told(machine, tmp_path):
    status, said, _ = run("homes", "template", str(tmp_path / "empty.csv"))
    assert (status, len(said.splitlines())) == (0, len(COLUMNS))
    assert (tmp_path / "empty.csv").read_text(encoding="utf-8-sig").startswith("Key,Address 1")


def test_what_is_due_is_told_by_month(home):
    status, said, aside = run("due", "--month", "2026-10")
    assert (status, said) == (
        0,
        f"2026-10-04  Service due: Marlpit C 28  {FIRST}  Flat 2, 14 Mill Lane, Ashcombe, ZZ99 3WZ\n",
    )
    assert aside == "1 thing falls due in October 2026.\n"
    assert home.trail(FIRST)[-1].by.startswith("command:")


def test_what_is_no_month_is_told(home):
    assert run("due", "--month", "soon")[0] == 2


@pytest.mark.parametrize("who", ["whitfield", "01632 960123"])
def test_somebody_is_shown_all_that_is_held(home, who, tmp_path):
    status, said, _ = run("person", "show", who)
    assert status == 0
    assert "Phone: +447700900456" in said
    assert "Bram Oakes" not in said
    assert run("person", "show", who, "--to", str(tmp_path / "held.txt"))[0] == 0
    assert "Anna Whitfield" in (tmp_path / "held.txt").read_text(encoding="utf-8")


def test_several_of_one_name_are_listed_to_choose_from(home):
    home.put(record(SECOND, anna()), "test")
    status, _, aside = run("person", "show", "anna")
    assert (status, "found 2" in aside, FIRST in aside, SECOND in aside) == (1, True, True, True)
    number = str(home.read(SECOND, "test").people[0].id)
    assert SECOND in run("person", "show", "anna", "--number", number)[1]
    assert "Anna Whitfield" in run("person", "show", SECOND.lower())[1]


def test_one_of_a_homes_people_is_named_by_its_key_and_their_number(home):
    status, _, aside = run("person", "show", FIRST)
    assert (status, "Anna Whitfield" in aside, "Bram Oakes" in aside) == (1, True, True)
    number = str(home.read(FIRST, "test").people[1].id)
    said = run("person", "show", FIRST, "--number", number)[1]
    assert ("Bram Oakes" in said, "Anna" in said) == (True, False)


def test_everybody_of_a_home_is_forgotten_together(home):
    assert run("person", "forget", FIRST, "--everybody", typed="n\n")[0] == 1
    assert len(home.read(FIRST, "test").people) == 2
    status, said, _ = run("person", "forget", FIRST, "--everybody", typed="y\n")
    assert (status, said.count("is forgotten.")) == (0, 2)
    assert home.read(FIRST, "test").people == ()


@pytest.mark.parametrize("who", ["whitfield", FIRST[:5]])
def test_everybody_is_said_of_one_home_alone(home, who):
    assert run("person", "forget", who, "--everybody", "--yes")[0] == 2
    assert len(home.read(FIRST, "test").people) == 2


def test_somebody_is_forgotten_and_what_the_law_keeps_is_named(home):
    person = home.read(FIRST, "test").people[0]
    home.keep(FIRST, "invoice", date(2026, 10, 1), "test", person.id)
    assert run("person", "forget", "whitfield", typed="n\n")[0] == 1
    assert len(home.read(FIRST, "test").people) == 2
    status, said, _ = run("person", "forget", "whitfield", typed="y\n")
    assert status == 0
    assert "Anna Whitfield is forgotten." in said
    assert "Value Added Tax Act 1994" in said
    assert [each.name for each in home.read(FIRST, "test").people] == ["Bram Oakes"]


def test_nobody_by_that_name_is_told(home):
    assert run("person", "forget", "nobody", "--yes")[0] == 1

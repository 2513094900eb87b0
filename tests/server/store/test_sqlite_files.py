import os
import sqlite3
from contextlib import closing

import pytest

from server.store import Store, WrongDatabase, database
from server.store.upgrade import migrate
from tests.server.store.building import file_in


def refusal(where: str) -> str:
    with pytest.raises(WrongDatabase) as caught:
        Store(where)
    return str(caught.value)


def test_the_folder_is_made_with_the_file(tmp_path):
    migrate(file_in(tmp_path / "var" / "deeper"))
    assert (tmp_path / "var" / "deeper" / "tundish.db").is_file()


def test_a_missing_file_is_not_made_by_opening_it(tmp_path):
    assert refusal(file_in(tmp_path)).endswith("found no such file. Run `tundish migrate` and start again.")
    assert os.listdir(tmp_path) == []


def test_an_empty_file_wants_migrating(tmp_path):
    (tmp_path / "tundish.db").touch()
    assert "found an empty one. Run `tundish migrate`" in refusal(file_in(tmp_path))


def test_a_file_of_another_kind_is_refused(tmp_path):
    (tmp_path / "tundish.db").write_text("These are words, and not a database. " * 50)
    assert "found a file of another kind" in refusal(file_in(tmp_path))
    with pytest.raises(WrongDatabase, match="a file of another kind"):
        migrate(file_in(tmp_path))


def test_a_folder_is_no_database(tmp_path):
    (tmp_path / "tundish.db").mkdir()
    with pytest.raises(WrongDatabase, match=r"found a folder\. Name a file in it"):
        migrate(file_in(tmp_path))


def test_a_folder_that_cannot_be_made_is_named(tmp_path):
    (tmp_path / "file").touch()
    with pytest.raises(
        WrongDatabase, match=r"Expected to make the folder .*file/deeper, found that this account may not"
    ):
        migrate(file_in(tmp_path / "file" / "deeper"))


def test_a_file_that_cannot_be_made_is_named(tmp_path):
    too_long = file_in(tmp_path, "x" * 300)
    with pytest.raises(WrongDatabase, match=r"may not read and write it\. Give this account the file and the folder /"):
        migrate(too_long)
    assert "found no such file" in refusal(too_long)


def test_a_database_that_another_program_holds_is_told(tmp_path):
    migrate(file_in(tmp_path))
    engine = database.engine_for(file_in(tmp_path))
    with closing(sqlite3.connect(tmp_path / "tundish.db", isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with database.for_reading(engine).connect() as connection:
            connection.exec_driver_sql("PRAGMA busy_timeout = 0")
            with pytest.raises(WrongDatabase, match="another program holds it"), database.reaching(engine):
                connection.exec_driver_sql("BEGIN IMMEDIATE")
    engine.dispose()


def test_a_writer_and_readers_can_be_at_the_file_together(tmp_path):
    migrate(file_in(tmp_path))
    with closing(sqlite3.connect(tmp_path / "tundish.db")) as connection:
        assert connection.execute("PRAGMA journal_mode").fetchone() == ("wal",)

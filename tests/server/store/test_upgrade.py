import sqlite3
from contextlib import closing

import pytest
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory

from server.store import StoreError, database
from server.store.tables import METADATA
from server.store.upgrade import migrate
from tests.server.store.building import FIRST, address, home, opened


def test_a_new_database_is_at_the_newest_version(tmp_path):
    assert migrate(address(tmp_path)) == database.known_versions()[-1]


def test_the_folder_is_made_with_the_database(tmp_path):
    migrate(address(tmp_path / "var" / "deeper"))
    assert (tmp_path / "var" / "deeper" / "tundish.db").is_file()


def test_migrating_again_leaves_everything_as_it_was(tmp_path):
    with opened(tmp_path) as store:
        store.put(home())
    migrate(address(tmp_path))
    with opened(tmp_path) as store:
        assert store.homes() == (home(),)


def test_the_migrations_make_exactly_the_tables_that_are_used(tmp_path):
    migrate(address(tmp_path))
    engine = database.engine_for(address(tmp_path))
    with engine.connect() as connection:
        context = MigrationContext.configure(
            connection, opts={"version_table": database.VERSION_TABLE, "compare_type": True}
        )
        assert compare_metadata(context, METADATA) == []
    engine.dispose()


def test_the_known_versions_are_alembics_own_in_order():
    config = Config()
    config.set_main_option("script_location", str(database.MIGRATIONS))
    steps = ScriptDirectory.from_config(config).walk_revisions()
    assert database.known_versions() == tuple(reversed([step.revision for step in steps]))


def test_a_step_that_fails_leaves_the_database_as_it_was(tmp_path):
    with closing(sqlite3.connect(tmp_path / "tundish.db")) as connection:
        connection.execute("CREATE VIEW homes AS SELECT 1 AS key")
    with pytest.raises(StoreError, match=r"a step of it failed\. The database is as it was"):
        migrate(address(tmp_path))
    with closing(sqlite3.connect(tmp_path / "tundish.db")) as connection:
        assert connection.execute("SELECT name FROM sqlite_master").fetchall() == [("homes",)]


def test_a_key_is_in_the_table_once(tmp_path):
    with opened(tmp_path) as store:
        store.put(home())
    with closing(sqlite3.connect(tmp_path / "tundish.db")) as connection:
        columns = "key, range, appliance, facts, marks, limits, places"
        with pytest.raises(sqlite3.IntegrityError, match="UNIQUE"):
            connection.execute(f"INSERT INTO homes ({columns}) SELECT {columns} FROM homes WHERE key = ?", (FIRST,))


def test_a_writer_and_readers_can_be_at_the_file_together(tmp_path):
    migrate(address(tmp_path))
    with closing(sqlite3.connect(tmp_path / "tundish.db")) as connection:
        assert connection.execute("PRAGMA journal_mode").fetchone() == ("wal",)

import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import inspect, text
from sqlalchemy.exc import IntegrityError

from kb.facts import GaugeMarks, Known
from kb.home import Home
from server.store import Revoked, Store, StoreError, database
from server.store.tables import METADATA
from server.store.upgrade import migrate
from tests.server.store.building import FIRST, SECOND, behind, home, tamper

RELEASED = Path(__file__).parent / "released"
"""What each version that was released wrote, a statement a line, good for both kinds of database."""


def test_a_new_database_is_at_the_newest_version(empty):
    assert migrate(empty) == database.known_versions()[-1]


def test_migrating_again_leaves_everything_as_it_was(store, address):
    store.put(home())
    migrate(address)
    assert store.homes() == (home(),)


def test_every_version_but_the_one_in_the_making_has_left_an_example():
    assert {file.stem for file in RELEASED.glob("*.sql")} >= set(database.known_versions()[:-1])


@pytest.mark.parametrize("version", sorted(file.stem for file in RELEASED.glob("*.sql")))
def test_what_a_released_version_wrote_is_there_after_migrating(empty, version):
    assert migrate(empty, version) == version
    tamper(empty, *(line.replace(":", "\\:") for line in (RELEASED / f"{version}.sql").read_text().splitlines()))
    migrate(empty)
    known = Known({"system": "sealed", "meter": "prepay"}, GaugeMarks(0.7, 1.1, 1.9), {"reset": 1})
    places = {"stop-tap": "under the sink – “left”"}
    kept = Home(FIRST, "marlpit-c", "Marlpit C 28", known, places, date(2020, 2, 29), date(2026, 11, 2))
    with Store(empty) as store:
        assert store.homes() == (kept,)
        assert store.home(SECOND) == Revoked(SECOND, date(2026, 10, 1))


def test_the_migrations_make_exactly_the_tables_that_are_used(address):
    with behind(address) as connection:
        context = MigrationContext.configure(
            connection,
            opts={"version_table": database.VERSION_TABLE, "compare_type": True},
        )
        assert compare_metadata(context, METADATA) == []


def test_the_known_versions_are_alembics_own_in_order():
    config = Config()
    config.set_main_option("script_location", str(database.MIGRATIONS))
    steps = ScriptDirectory.from_config(config).walk_revisions()
    assert database.known_versions() == tuple(reversed([step.revision for step in steps]))


def test_a_step_that_fails_leaves_the_database_as_it_was(empty):
    tamper(empty, "CREATE VIEW homes AS SELECT 1 AS key")
    with pytest.raises(StoreError, match=r"a step of it failed\. The database is as it was"):
        migrate(empty)
    with behind(empty) as connection:
        assert inspect(connection).get_table_names() == []
        assert inspect(connection).get_view_names() == ["homes"]


def test_processes_that_migrate_at_once_all_find_it_done(empty):
    script = f"from server.store.upgrade import migrate; migrate({empty!r})"
    started = [subprocess.Popen([sys.executable, "-c", script], stderr=subprocess.PIPE) for _ in range(3)]
    assert [process.communicate(timeout=60)[1].decode() for process in started] == [""] * 3
    with Store(empty) as store:
        assert store.homes() == ()


def test_a_key_is_in_the_table_once(store, address):
    store.put(home())
    columns = "key, range, appliance, facts, marks, limits, places"
    with pytest.raises(IntegrityError), behind(address) as connection:
        connection.execute(text(f"INSERT INTO homes ({columns}) SELECT {columns} FROM homes"))


def test_the_key_is_looked_up_by_its_index(address):
    with behind(address) as connection:
        if connection.dialect.name == "postgresql":
            connection.execute(text("SET enable_seqscan = off"))
            plan = connection.execute(text("EXPLAIN SELECT * FROM homes WHERE key = 'x'")).all()
        else:
            plan = connection.execute(text("EXPLAIN QUERY PLAN SELECT * FROM homes WHERE key = 'x'")).all()
    assert "homes_key" in str(plan) or "USING INDEX" in str(plan)

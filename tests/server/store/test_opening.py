import subprocess
import sys

import pytest

from server.store import Store, WrongDatabase, database
from server.store.upgrade import migrate
from tests.postgres import USER
from tests.server.store.building import FIRST, home, tamper

NEWEST = database.known_versions()[-1]


def refusal(where: str) -> str:
    with pytest.raises(WrongDatabase) as caught:
        Store(where)
    return str(caught.value)


def test_a_newer_database_is_left_alone(store, address):
    store.put(home())
    tamper(address, "UPDATE tundish_version SET version_num = '9999'")
    assert f"at most at version {NEWEST}, found version 9999. Start the newer program" in refusal(address)
    with pytest.raises(WrongDatabase, match="Start the newer program"):
        migrate(address)
    assert store.home(FIRST) == home()


@pytest.mark.parametrize(
    ("change", "found"),
    [
        ("UPDATE tundish_version SET version_num = 'b5c1f0'", "the version b5c1f0"),
        ("INSERT INTO tundish_version VALUES ('0000')", f"the version {NEWEST}, 0000"),
        ("DELETE FROM tundish_version", "tables without this program's version ("),
        ("DROP TABLE tundish_version", "tables without this program's version ("),
    ],
)
def test_another_programs_database_is_neither_opened_nor_migrated(address, change, found):
    tamper(address, change)
    assert found in refusal(address)
    with pytest.raises(WrongDatabase, match="Name another database, or a new file"):
        migrate(address)


def test_an_empty_database_on_a_server_wants_migrating(postgres):
    name = postgres.create()
    assert f"at version {NEWEST}, found an empty one. Run `tundish migrate`" in refusal(postgres.address(name))
    postgres.drop(name)


def test_a_database_that_is_not_there_is_told(postgres):
    assert refusal(postgres.address("nowhere")).endswith("Start its server, or mend its address.")


@pytest.fixture
def as_guest(postgres):
    """The address of an empty database for an account that is nobody's master."""
    name = postgres.create()
    tamper(postgres.address(name), "CREATE ROLE guest LOGIN")
    yield postgres.address(name).replace(f"//{USER}@", "//guest@")
    postgres.drop(name)
    tamper(postgres.address("postgres"), "DROP ROLE guest")


def test_an_account_that_may_not_make_tables_is_told(as_guest):
    with pytest.raises(WrongDatabase, match="Make this account the owner of the database"):
        migrate(as_guest)


def test_an_account_that_owns_its_database_and_no_more_can_migrate_it(as_guest, postgres):
    name = as_guest.rpartition("/test")[2].partition("?")[0]
    tamper(postgres.address("postgres"), f"ALTER DATABASE test{name} OWNER TO guest")
    assert migrate(as_guest) == NEWEST


@pytest.mark.parametrize(
    ("where", "said"),
    [
        ("", "an address that cannot be read"),
        ("tundish.db", "an address that cannot be read"),
        ("mysql://somebody@host/name", "found 'mysql'"),
        ("postgresql+none://somebody@host/name", "an address that cannot be read"),
        ("postgresql+asyncpg://somebody@host/name", "one that needs asyncpg"),
        ("sqlite://", "a SQLite address that names a file alone"),
        ("sqlite:///:memory:", "a SQLite address that names a file alone"),
    ],
)
def test_an_address_that_cannot_be_one_is_refused(where, said):
    assert said in refusal(where)


@pytest.mark.parametrize("scheme", ["postgresql+psycopg", "postgresql"])
def test_a_password_is_never_told(scheme):
    said = refusal(f"{scheme}://somebody:secret@127.0.0.1:1/name")
    assert "that it lets nobody in" in said
    assert "secret" not in said


def test_serving_does_not_import_alembic():
    script = "import sys, server.store; sys.exit('alembic' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", script], check=False).returncode == 0


def test_opening_finds_what_was_put(store, address):
    store.put(home())
    with Store(address) as again:
        assert again.home(FIRST) == home()

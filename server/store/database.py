"""Can this database be used: is it there, is it ours, and is it of this program's version?"""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from os.path import isdir, isfile
from pathlib import Path
from typing import Any, Final

from sqlalchemy import Connection, Engine, create_engine, event, inspect, text
from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import ArgumentError, DatabaseError, DBAPIError, NoSuchModuleError, OperationalError

from server.store.errors import WrongDatabase

VERSION_TABLE: Final = "tundish_version"
"""Where the version stands; its name is our own, so that no other program's database passes for this one's."""

MIGRATIONS: Final = Path(__file__).parent / "migrations"
MIGRATE: Final = "Run `tundish migrate` and start again."

_ADDRESSES: Final = "an address like sqlite:///tundish.db or postgresql+psycopg://user@host/name"
_ANOTHER: Final = "Name another database, or a new file."


def known_versions() -> tuple[str, ...]:
    """Every version this program can bring a database to, the newest last."""
    return tuple(sorted(path.stem[1:5] for path in (MIGRATIONS / "versions").glob("v[0-9]*.py")))


def engine_for(address: str) -> Engine:
    """What speaks to the database at an address; nothing is opened yet.

    Raises WrongDatabase for an address that cannot be one.
    """
    try:
        url = make_url(address)
        sqlite = url.get_backend_name() == "sqlite"
        if not sqlite and url.get_backend_name() != "postgresql":
            raise WrongDatabase(_ADDRESSES, f"{url.get_backend_name()!r}", "Mend the database's address.")
        # An error goes to the log, where nobody's name or number may stand.
        engine = create_engine(url, pool_pre_ping=not sqlite, hide_parameters=True)
    except (ArgumentError, NoSuchModuleError, ValueError):
        raise WrongDatabase(_ADDRESSES, "an address that cannot be read", "Mend the database's address.") from None
    except ModuleNotFoundError as error:
        driver = error.name or "its driver"
        raise WrongDatabase(_ADDRESSES, f"one that needs {driver}", f"Install {driver}.") from None
    if sqlite:
        _refuse_memory(url)
        event.listen(engine, "connect", _prepare_sqlite)
        event.listen(engine, "begin", _begin_sqlite)
    return engine


def for_reading(engine: Engine) -> Engine:
    """The same connections for single reads, without a transaction around each."""
    if engine.dialect.name == "sqlite":
        return engine.execution_options(reading=True)
    return engine.execution_options(isolation_level="AUTOCOMMIT")


def refuse_missing(engine: Engine) -> None:
    """Raise WrongDatabase if the SQLite file is not there, which opening it would silently make."""
    if engine.dialect.name == "sqlite" and not isfile(engine.url.database or ""):
        raise WrongDatabase(f"a database at {name(engine)}", "no such file", MIGRATE)


def make_folder(engine: Engine) -> None:
    """Make the folder a SQLite file lies in, if need be; raises WrongDatabase if it cannot be made."""
    if engine.dialect.name != "sqlite":
        return
    folder = Path(engine.url.database or "").absolute().parent
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError:
        next_step = "Make that folder, or name another in the database's address."
        raise WrongDatabase(f"to make the folder {folder}", "that this account may not", next_step) from None


def refuse_other_version(engine: Engine) -> None:
    """Raise WrongDatabase unless the database is at this program's own version."""
    newest = known_versions()[-1]
    with reaching(engine), for_reading(engine).connect() as connection:
        version = version_of(connection)
    if version != newest:
        found = f"version {version}" if version else "an empty one"
        raise WrongDatabase(f"the database {name(engine)} at version {newest}", found, MIGRATE)


def version_of(connection: Connection) -> str | None:
    """The version a database is at, None if it is empty; raises WrongDatabase if this program cannot know it."""
    expected = f"a database of this program at {name(connection.engine)}"
    tables = set(inspect(connection).get_table_names())
    versions = _versions(connection) if VERSION_TABLE in tables else []
    others = sorted(tables - {VERSION_TABLE})
    if not versions and others:
        raise WrongDatabase(expected, f"tables without this program's version ({', '.join(others[:3])} …)", _ANOTHER)
    if not versions:
        return None
    known = known_versions()
    if len(versions) == 1 and versions[0] in known:
        return str(versions[0])
    if len(versions) == 1 and re.fullmatch(r"\d{4}", versions[0]) and versions[0] > known[-1]:
        newer = "Start the newer program that wrote it, or restore the backup made before it."
        raise WrongDatabase(f"{expected}, at most at version {known[-1]}", f"version {versions[0]}", newer)
    raise WrongDatabase(expected, f"the version {', '.join(map(str, versions))}", _ANOTHER)


def _versions(connection: Connection) -> list[str]:
    statement = text(f"SELECT version_num FROM {VERSION_TABLE}")
    return list(connection.execute(statement).scalars())


@contextmanager
def reaching(engine: Engine) -> Iterator[None]:
    """Turn what a driver says while the database is first opened into WrongDatabase."""
    try:
        yield
    except OperationalError as error:
        raise _out_of_reach(engine, error) from error
    except DatabaseError as error:
        if _errorname(error) != "SQLITE_NOTADB":
            raise
        raise WrongDatabase(f"a database at {name(engine)}", "a file of another kind", _ANOTHER) from error


def _out_of_reach(engine: Engine, error: OperationalError) -> WrongDatabase:
    expected = f"to open the database {name(engine)}"
    if engine.dialect.name != "sqlite":
        return WrongDatabase(expected, "that it lets nobody in", "Start its server, or mend its address.")
    file = engine.url.database or ""
    if _errorname(error) == "SQLITE_BUSY":
        return WrongDatabase(expected, "that another program holds it", "Stop the other program, then try again.")
    if isdir(file):
        return WrongDatabase(expected, "a folder", "Name a file in it.")
    found = "that this account may not read and write it"
    return WrongDatabase(expected, found, f"Give this account the file and the folder {Path(file).absolute().parent}.")


def _errorname(error: DBAPIError) -> str:
    return str(getattr(error.orig, "sqlite_errorname", ""))


def name(engine: Engine) -> str:
    """The address as it may be printed, its password hidden."""
    return engine.url.render_as_string(hide_password=True)


def _refuse_memory(url: URL) -> None:
    if not url.database or url.database == ":memory:" or url.query:
        raise WrongDatabase("a SQLite address that names a file alone", str(url), "Write sqlite:///tundish.db.")


def _prepare_sqlite(connection: Any, record: object) -> None:
    """Leave transactions to us, and let readers and a writer at the file together."""
    connection.isolation_level = None
    connection.execute("PRAGMA busy_timeout = 5000")
    connection.execute("PRAGMA journal_mode = WAL")
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("PRAGMA secure_delete = ON")


def _begin_sqlite(connection: Connection) -> None:
    # A transaction that writes takes the lock first: one that reads and then writes could not wait for it.
    if not connection.get_execution_options().get("reading"):
        connection.exec_driver_sql("BEGIN IMMEDIATE")

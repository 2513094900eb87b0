"""How is a database made, or brought to this program's version?"""

from typing import Final

from alembic import command
from alembic.config import Config
from sqlalchemy import Connection, text
from sqlalchemy.exc import DBAPIError, SQLAlchemyError

from server.store import database
from server.store.errors import StoreError, WrongDatabase

_LOCK: Final = 7_208_834_520_311_467
"""The number of the lock that whoever migrates holds; any other would do, if every version kept to it."""

_INSUFFICIENT_PRIVILEGE: Final = "42501"
"""What PostgreSQL calls it (its documentation, appendix A)."""


def migrate(address: str, to: str = "head") -> str:
    """Make the database at an address or bring it to this program's version, and return that version.

    All of it happens in one transaction, so a database is left as it was if anything fails.
    Of several processes that begin at once, one does the work and the others wait for it and find it done.
    `to` names an earlier version, for the tests of what comes after it.
    Raises WrongDatabase for one that is not ours, is newer, or is out of reach, and StoreError if a step fails.
    """
    engine = database.engine_for(address)
    database.make_folder(engine)
    config = Config()
    config.set_main_option("script_location", str(database.MIGRATIONS).replace("%", "%%"))
    try:
        with database.reaching(engine), engine.begin() as connection:
            _wait_for_others(connection)
            database.version_of(connection)
            config.attributes["connection"] = connection
            _upgrade(config, to, address_shown=database.name(engine))
    finally:
        engine.dispose()
    return database.known_versions()[-1] if to == "head" else to


def _wait_for_others(connection: Connection) -> None:
    # SQLite lets one transaction write from its very beginning; PostgreSQL must be asked.
    if connection.dialect.name == "postgresql":
        connection.execute(text("SELECT pg_advisory_xact_lock(:lock)"), {"lock": _LOCK})


def _upgrade(config: Config, to: str, address_shown: str) -> None:
    try:
        command.upgrade(config, to)
    except SQLAlchemyError as error:
        if isinstance(error, DBAPIError) and getattr(error.orig, "sqlstate", "") == _INSUFFICIENT_PRIVILEGE:
            raise WrongDatabase(
                f"to make tables in the database {address_shown}",
                "that this account may not",
                "Make this account the owner of the database.",
            ) from error
        raise StoreError(
            f"Expected to bring the database {address_shown} to version {database.known_versions()[-1]}, found that a "
            "step of it failed. The database is as it was. See that its disk is not full, or restore a backup."
        ) from error

"""How is a database made, or brought to this program's version?"""

from alembic import command
from alembic.config import Config
from sqlalchemy.exc import SQLAlchemyError

from server.store import database
from server.store.errors import StoreError


def migrate(address: str) -> str:
    """Make the database at an address or bring it to this program's version, and return that version.

    All of it happens in one transaction, so a database is left as it was if anything fails.
    Raises WrongDatabase for one that is not ours, is newer, or is out of reach, and StoreError if a step fails.
    """
    engine = database.engine_for(address)
    database.make_folder(engine)
    config = Config()
    config.set_main_option("script_location", str(database.MIGRATIONS).replace("%", "%%"))
    try:
        with database.reaching(engine), engine.begin() as connection:
            database.version_of(connection)
            config.attributes["connection"] = connection
            _upgrade(config, address_shown=database.name(engine))
    finally:
        engine.dispose()
    return database.known_versions()[-1]


def _upgrade(config: Config, address_shown: str) -> None:
    try:
        command.upgrade(config, "head")
    except SQLAlchemyError as error:
        raise StoreError(
            f"Expected to bring the database {address_shown} to version {database.known_versions()[-1]}, found that a "
            "step of it failed. The database is as it was. See that its disk is not full, or restore a backup."
        ) from error

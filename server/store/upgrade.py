"""How is a database made, or brought to this program's version?"""

from alembic import command
from alembic.config import Config

from server.store import database
from server.store.errors import WrongDatabase


def migrate(address: str) -> str:
    """Make the database at an address or bring it to this program's version, and return that version.

    All of it happens in one transaction, so a database is left as it was if anything fails.
    Raises WrongDatabase for one that is not ours, is newer, or is out of reach.
    """
    engine = database.engine_for(address)
    config = Config()
    config.set_main_option("script_location", str(database.MIGRATIONS).replace("%", "%%"))
    try:
        with database.reaching(engine), engine.begin() as connection:
            database.version_of(connection)
            config.attributes["connection"] = connection
            command.upgrade(config, "head")
            version = database.version_of(connection)
    finally:
        engine.dispose()
    if version is None:
        raise WrongDatabase("migrations in the program", "none", "Install the program again.")
    return version

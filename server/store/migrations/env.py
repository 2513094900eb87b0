"""What alembic runs, once for each upgrade, on the connection that `server.store.upgrade` hands it."""

from alembic import context

from server.store.database import VERSION_TABLE
from server.store.tables import METADATA

# Alembic executes this file instead of calling a function in it.
context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=METADATA,
    version_table=VERSION_TABLE,
    transactional_ddl=True,
)
context.run_migrations()

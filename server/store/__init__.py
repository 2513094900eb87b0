"""Where homes are kept: SQLite by default, PostgreSQL by its address.

Bringing a database to this program's version is `server.store.upgrade`, apart because it imports alembic,
which serving has no use for.
"""

from server.store.errors import DamagedHome, StoreError, StoreUnavailable, WrongDatabase
from server.store.homes import Revoked
from server.store.store import Store

__all__ = ["DamagedHome", "Revoked", "Store", "StoreError", "StoreUnavailable", "WrongDatabase"]

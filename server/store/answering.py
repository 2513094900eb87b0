"""What is told when a database that was there when the program started does not answer?"""

from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy import Engine
from sqlalchemy.exc import SQLAlchemyError

from server.store import database
from server.store.errors import DamagedHome, StoreUnavailable


@contextmanager
def answered(engine: Engine, *but: type[SQLAlchemyError]) -> Iterator[None]:
    """Turn what goes wrong on the way to the database into StoreUnavailable, or DamagedHome.

    Errors that the caller awaits, `but`, are left as they are.
    """
    try:
        yield
    except but:
        raise
    except SQLAlchemyError as error:
        raise StoreUnavailable(
            f"Expected the database {database.name(engine)} to answer, found that it does not. "
            "See that its file or its server is there and not full."
        ) from error
    except ValueError as error:
        raise DamagedHome(
            f"Expected homes in {database.name(engine)}, found a row that cannot be read. "
            "Put that home in again, or restore the database from a backup."
        ) from error

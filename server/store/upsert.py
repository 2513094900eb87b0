"""How is a row added, or changed where it is there already, in one statement that no other process can split?"""

from functools import cache

from sqlalchemy import Insert, Table


@cache
def upsert(table: Table, kind: str, by: tuple[str, ...], kept: tuple[str, ...] = ()) -> Insert:
    """The statement for a kind of database: rows are the same by these columns, and those in `kept` stay as they are.

    Each kind has its own; only the one in use is loaded.
    """
    if kind == "postgresql":
        from sqlalchemy.dialects.postgresql import insert
    else:
        from sqlalchemy.dialects.sqlite import insert  # type: ignore[assignment]
    add = insert(table)
    changed = {column.name: add.excluded[column.name] for column in table.c if column.name not in ("id", *by, *kept)}
    return add.on_conflict_do_update(index_elements=by, set_=changed)

"""How is a moment kept, so that it comes back the same from every database?"""

from datetime import UTC, datetime
from typing import Any

from sqlalchemy import DateTime, Dialect
from sqlalchemy.types import TypeDecorator


class Moment(TypeDecorator[datetime]):
    """A moment in UTC; SQLite keeps no zone, so it is put back."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """The moment in UTC; raises ValueError for one whose zone nobody knows."""
        if value is not None and value.tzinfo is None:
            raise ValueError(f"Expected a moment with its zone, found {value}. Use datetime.now(UTC).")
        return value.astimezone(UTC) if value else None

    def process_result_value(self, value: Any, dialect: Dialect) -> datetime | None:
        """The moment, its zone UTC."""
        return (value.astimezone(UTC) if value.tzinfo else value.replace(tzinfo=UTC)) if value else None

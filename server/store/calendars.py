"""Whose calendar stands behind a secret address?"""

from datetime import datetime
from typing import Final

from sqlalchemy import Column, Engine, ForeignKey, Select, String, Table, delete, select

from kb.staff import Account, Role
from server.store.answering import answered
from server.store.staff_tables import ACCOUNTS
from server.store.tables import METADATA
from server.store.types import Moment
from server.store.upsert import upsert

CALENDARS: Final = Table(
    "calendars",
    METADATA,
    Column("account", ForeignKey("accounts.id"), primary_key=True, autoincrement=False),
    Column("secret", String(64), nullable=False, unique=True),
    Column("made", Moment, nullable=False),
)
"""The hash of the secret in the address of an account's calendar: one address an account, made when."""


class Calendars:
    """The secret addresses of one database; only their hashes are kept."""

    def __init__(self, engine: Engine, reading: Engine) -> None:
        """Use the store's own connections."""
        self._engine = engine
        self._reading = reading

    def renew(self, name: str, secret: str, at: datetime) -> None:
        """Give an account an address by its secret's hash; an earlier one opens nothing any more."""
        with answered(self._engine), self._engine.begin() as connection:
            account = connection.execute(_account(name)).scalar_one()
            row = {"account": account, "secret": secret, "made": at}
            connection.execute(upsert(CALENDARS, connection.dialect.name, ("account",)), row)

    def stop(self, name: str) -> None:
        """Let an account have no address."""
        with answered(self._engine), self._engine.begin() as connection:
            account = connection.execute(_account(name)).scalar_one()
            connection.execute(delete(CALENDARS).where(CALENDARS.c.account == account))

    def made(self, name: str) -> datetime | None:
        """When the address of an account was made, or None if it has none."""
        query = select(CALENDARS.c.made).where(CALENDARS.c.account == _account(name).scalar_subquery())
        with answered(self._engine), self._reading.connect() as connection:
            return connection.execute(query).scalar()

    def whose(self, secret: str) -> Account | None:
        """The account that has this address, if it may still sign in."""
        query = (
            select(ACCOUNTS.c.name, ACCOUNTS.c.roles, ACCOUNTS.c.code_secret)
            .join(CALENDARS, CALENDARS.c.account == ACCOUNTS.c.id)
            .where(CALENDARS.c.secret == secret, ACCOUNTS.c.ended.is_(None))
        )
        with answered(self._engine), self._reading.connect() as connection:
            row = connection.execute(query).first()
        roles = frozenset(Role(role) for role in row.roles) if row else frozenset()
        return Account(row.name, roles, row.code_secret is not None) if row else None


def _account(name: str) -> Select[tuple[int]]:
    return select(ACCOUNTS.c.id).where(ACCOUNTS.c.name == name)

"""Who may sign in, whose session is this, and how often was it tried?"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any, Final

from sqlalchemy import Engine, Row, delete, func, insert, select, update
from sqlalchemy.exc import IntegrityError

from kb.staff import Account, Role
from server.store.answering import answered
from server.store.staff_tables import ACCOUNTS, SESSIONS, SIGN_INS

IDLE: Final = timedelta(hours=12)
"""A session that nobody used for so long has ended: a working day with a break is shorter."""

OLDEST: Final = timedelta(days=14)
"""A session ends after so long in any case."""

KEPT: Final = timedelta(days=90)
"""How long tries to sign in are kept."""

_SEEN_AGAIN: Final = timedelta(minutes=5)
_SESSION: Final = select(SESSIONS, ACCOUNTS.c.name, ACCOUNTS.c.roles, ACCOUNTS.c.code_secret).join(
    ACCOUNTS, (ACCOUNTS.c.id == SESSIONS.c.account) & ACCOUNTS.c.ended.is_(None)
)


@dataclass(frozen=True, slots=True)
class Credentials:
    """What somebody proves to be an account's owner with: the hash of a password, the secret of one-time codes."""

    account: Account
    password: str
    code_secret: str | None


class NameTaken(Exception):
    """There is an account of that name, perhaps an ended one, whose name stands in old records."""


class Staff:
    """The accounts, sessions and tries to sign in of one database."""

    def __init__(self, engine: Engine, reading: Engine) -> None:
        """Use the store's own connections."""
        self._engine = engine
        self._reading = reading

    def add(self, account: Account, password: str, at: datetime) -> None:
        """Add an account with the hash of its password; raises NameTaken."""
        row = {
            "name": account.name,
            "sought": _sought(account.name),
            "roles": sorted(account.roles),
            "password": password,
            "code_used": 0,
            "made": at,
        }
        try:
            with answered(self._engine, IntegrityError), self._engine.begin() as connection:
                connection.execute(insert(ACCOUNTS), row)
        except IntegrityError:
            raise NameTaken from None

    def credentials(self, name: str) -> Credentials | None:
        """What the account of a name is proved with; None where there is none that may sign in."""
        query = select(ACCOUNTS).where(ACCOUNTS.c.sought == _sought(name), ACCOUNTS.c.ended.is_(None))
        with answered(self._engine), self._reading.connect() as connection:
            row = connection.execute(query).first()
        return Credentials(_account(row), row.password, row.code_secret) if row else None

    def accounts(self) -> tuple[Account, ...]:
        """Every account that may sign in, by name."""
        query = select(ACCOUNTS).where(ACCOUNTS.c.ended.is_(None)).order_by(ACCOUNTS.c.sought)
        with answered(self._engine), self._reading.connect() as connection:
            return tuple(_account(row) for row in connection.execute(query))

    def set_password(self, name: str, password: str) -> bool:
        """Keep another hash; whether there is such an account."""
        return self._change(name, password=password)

    def set_code_secret(self, name: str, secret: str | None) -> bool:
        """Ask for one-time codes made with a secret, or with None for no codes; whether there is such an account."""
        return self._change(name, code_secret=secret, code_used=0)

    def set_roles(self, name: str, roles: Iterable[Role]) -> bool:
        """Give an account these roles and no others; whether there is such an account."""
        return self._change(name, roles=sorted(roles))

    def end(self, name: str, at: datetime) -> bool:
        """Let an account sign in no more and end its sessions; whether there was such an account."""
        return self._change(name, ended=at) and self.end_sessions(name) >= 0

    def take_code(self, name: str, step: int) -> bool:
        """Use up the one-time code of a step in time; False if it, or a later one, was used before."""
        query = update(ACCOUNTS).where(ACCOUNTS.c.sought == _sought(name), ACCOUNTS.c.code_used < step)
        with answered(self._engine), self._engine.begin() as connection:
            return bool(connection.execute(query.values(code_used=step)).rowcount)

    def begin_session(self, id: str, name: str, at: datetime) -> None:
        """Begin a session for an account, by the hash of what its browser holds."""
        account = select(ACCOUNTS.c.id).where(ACCOUNTS.c.sought == _sought(name)).scalar_subquery()
        with answered(self._engine), self._engine.begin() as connection:
            connection.execute(delete(SESSIONS).where(SESSIONS.c.seen < at - OLDEST))
            connection.execute(insert(SESSIONS).values(id=id, account=account, began=at, seen=at))

    def session(self, id: str, at: datetime) -> Account | None:
        """Whose session it is, if it has not ended; reading it keeps it alive."""
        with answered(self._engine), self._reading.connect() as connection:
            row = connection.execute(_SESSION.where(SESSIONS.c.id == id)).first()
        if row is None or at - row.seen > IDLE or at - row.began > OLDEST:
            return None
        if at - row.seen > _SEEN_AGAIN:
            with answered(self._engine), self._engine.begin() as connection:
                connection.execute(update(SESSIONS).where(SESSIONS.c.id == id).values(seen=at))
        return _account(row)

    def end_session(self, id: str) -> None:
        """End one session."""
        with answered(self._engine), self._engine.begin() as connection:
            connection.execute(delete(SESSIONS).where(SESSIONS.c.id == id))

    def end_sessions(self, name: str) -> int:
        """End every session of an account; how many there were."""
        accounts = select(ACCOUNTS.c.id).where(ACCOUNTS.c.sought == _sought(name))
        with answered(self._engine), self._engine.begin() as connection:
            return connection.execute(delete(SESSIONS).where(SESSIONS.c.account.in_(accounts))).rowcount

    def note_try(self, name: str, address: str, at: datetime, well: bool) -> None:
        """Keep that somebody tried to sign in as `name` from an address."""
        row = {"sought": _sought(name), "address": address[:64], "at": at, "well": well}
        with answered(self._engine), self._engine.begin() as connection:
            connection.execute(delete(SIGN_INS).where(SIGN_INS.c.at < at - KEPT))
            connection.execute(insert(SIGN_INS), row)

    def failures(self, since: datetime, name: str | None = None, address: str | None = None) -> int:
        """How many tries failed since a moment, for a name, from an address, or both."""
        query = select(func.count()).where(SIGN_INS.c.at >= since, SIGN_INS.c.well.is_(False))
        query = query if name is None else query.where(SIGN_INS.c.sought == _sought(name))
        query = query if address is None else query.where(SIGN_INS.c.address == address[:64])
        with answered(self._engine), self._reading.connect() as connection:
            return connection.execute(query).scalar_one()

    def known_at(self, name: str, address: str) -> bool:
        """Whether an account signed in well from an address before."""
        query = select(SIGN_INS.c.id).where(
            SIGN_INS.c.sought == _sought(name), SIGN_INS.c.address == address[:64], SIGN_INS.c.well.is_(True)
        )
        with answered(self._engine), self._reading.connect() as connection:
            return connection.execute(query.limit(1)).first() is not None

    def _change(self, name: str, **values: Any) -> bool:
        query = update(ACCOUNTS).where(ACCOUNTS.c.sought == _sought(name), ACCOUNTS.c.ended.is_(None))
        with answered(self._engine), self._engine.begin() as connection:
            return bool(connection.execute(query.values(**values)).rowcount)


def _sought(name: str) -> str:
    return " ".join(name.casefold().split())[:120]


def _account(row: Row[Any]) -> Account:
    return Account(row.name, frozenset(map(Role, row.roles)), row.code_secret is not None)

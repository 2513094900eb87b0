"""Who asked to be called, who has taken it up, and when is it forgotten?"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import StrEnum
from secrets import token_hex
from typing import Any, Final

from sqlalchemy import ColumnElement, Connection, Engine, Row, Update, delete, func, insert, or_, select, text, update

from kb.article import Pace
from kb.callback import Reach, reference_of
from server.store.answering import answered
from server.store.register.audit import Did, Entry, named, trace_request, trail_of_request
from server.store.register.erasing import sweep
from server.store.request_tables import OUTBOX, REQUEST_TRIES, REQUESTS
from server.store.tables import HOMES

KEPT: Final = timedelta(days=30)
"""How long a request is kept after it was done."""

LONGEST: Final = timedelta(days=180)
"""How long a request is kept in any case."""

WINDOW: Final = timedelta(hours=24)
"""How far back requests count for the limits."""

MOST_FOR_A_NUMBER: Final = 3
"""Requests to ring one number, after which it must wait: nobody is rung at somebody else's wish again and again."""

_SEEN: Final = ("request.name", "request.phone", "request.tried")

MOST_FROM_AN_ADDRESS: Final = 20
"""Requests from one address: a house of many homes, or the phones of a whole network, may share one."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What a household sends: whom to ring when, how soon, and what was tried if it may go along.

    `tried` holds `article`, `trail`, `home` (a key or None), `reference` (the call reference), and `end` and `told`
    in the household's words.
    """

    sent: str
    name: str
    phone: str
    reach: Reach
    pace: Pace
    tried: Mapping[str, Any] | None


@dataclass(frozen=True, slots=True)
class Request:
    """Somebody who asked to be called, and how far it is."""

    id: int
    asked: Asked
    at: datetime
    taken: datetime | None = None
    taken_by: str | None = None
    done: datetime | None = None
    done_by: str | None = None

    @property
    def reference(self) -> str:
        """What the household was told to read out."""
        return reference_of(self.asked.sent)


@dataclass(frozen=True, slots=True)
class Receipt:
    """What the household itself is shown again: nothing that would tell anybody who it is."""

    reference: str
    at: datetime
    pace: Pace
    reach: Reach
    ending: str
    with_tried: bool
    done: bool


class Put(StrEnum):
    """What became of what was sent."""

    NEW = "new"
    THERE = "there"
    TOO_MANY = "too-many"


class Requests:
    """Those who asked one firm to call; whoever reads about them gives the name of their account."""

    def __init__(self, engine: Engine, reading: Engine) -> None:
        """Use the store's own connections."""
        self._engine = engine
        self._reading = reading

    def put(self, asked: Asked, ways: Iterable[str], address: str, at: datetime) -> Put:
        """Keep a request together with what is to be told of it in each way: both, or neither.

        What was sent before is there already and counts for no limit.
        """
        with answered(self._engine), self._engine.begin() as connection:
            _one_at_a_time(connection)
            if connection.execute(select(REQUESTS.c.id).where(REQUESTS.c.sent == asked.sent)).first():
                return Put.THERE
            if _too_many(connection, asked.phone, address[:64], at - WINDOW):
                return Put.TOO_MANY
            connection.execute(delete(REQUEST_TRIES).where(REQUEST_TRIES.c.at < at - WINDOW))
            connection.execute(insert(REQUEST_TRIES).values(address=address[:64], phone=asked.phone, at=at))
            id = connection.execute(insert(REQUESTS).values(_row(asked, at)).returning(REQUESTS.c.id)).scalar_one()
            for way in ways:
                told = {"request": id, "way": way, "key": token_hex(16), "due": at, "tries": 0, "why": ""}
                connection.execute(insert(OUTBOX).values(told))
        return Put.NEW

    def receipt(self, sent: str) -> Receipt | None:
        """What the household may see again of what it sent; None for nothing, or what is forgotten."""
        with answered(self._engine), self._reading.connect() as connection:
            row = connection.execute(select(REQUESTS).where(REQUESTS.c.sent == sent)).first()
        if row is None:
            return None
        has_tried, done = row.tried is not None, row.done is not None
        return Receipt(reference_of(sent), row.asked, Pace(row.pace), Reach(row.reach), row.phone[-3:], has_tried, done)

    def waiting(self, by: str) -> tuple[Request, ...]:
        """Every request that is not done, the most pressing first, then the oldest; each leaves a trace."""
        named(by)
        query = select(REQUESTS).where(REQUESTS.c.done.is_(None)).order_by(REQUESTS.c.asked, REQUESTS.c.id)
        with answered(self._engine), self._reading.connect() as connection:
            waits = connection.execute(query.with_only_columns(REQUESTS.c.id)).first() is not None
        if not waits:
            return ()
        with answered(self._engine), self._engine.begin() as connection:
            found = [request_of(row) for row in connection.execute(query)]
            _trace(connection, by, found)
        return tuple(sorted(found, key=lambda request: list(Pace).index(request.asked.pace)))

    def read(self, id: int, by: str) -> Request | None:
        """One request, which leaves a trace; None for no such one, or one that is forgotten."""
        named(by)
        with answered(self._engine), self._engine.begin() as connection:
            row = connection.execute(select(REQUESTS).where(REQUESTS.c.id == id)).first()
            found = request_of(row) if row else None
            if found is not None:
                _trace(connection, by, [found])
        return found

    def trail(self, id: int) -> tuple[Entry, ...]:
        """Who saw or took up a request, the oldest first; that stays when the request is forgotten."""
        with answered(self._engine), self._reading.connect() as connection:
            return trail_of_request(connection, id)

    def take(self, id: int, by: str, at: datetime) -> bool:
        """Take a request up; False if it is done, or somebody else has it."""
        free = or_(REQUESTS.c.taken_by.is_(None), REQUESTS.c.taken_by == named(by))
        query = update(REQUESTS).where(REQUESTS.c.id == id, REQUESTS.c.done.is_(None), free)
        return self._change(query.values(taken_by=by, taken=func.coalesce(REQUESTS.c.taken, at)))

    def finish(self, id: int, by: str, at: datetime) -> bool:
        """Note that a household was called; False if that was noted before. Nobody need be told of it any more."""
        query = update(REQUESTS).where(REQUESTS.c.id == id, REQUESTS.c.done.is_(None))
        with answered(self._engine), self._engine.begin() as connection:
            done = bool(connection.execute(query.values(done=at, done_by=named(by))).rowcount)
            connection.execute(delete(OUTBOX).where(OUTBOX.c.request == id, OUTBOX.c.sent.is_(None)))
        return done

    def erase(self, id: int, by: str) -> bool:
        """Forget a request now, because whoever sent it asks for that; whether there was one."""
        with answered(self._engine), self._engine.begin() as connection:
            row = connection.execute(select(REQUESTS).where(REQUESTS.c.id == id)).first()
            if row is not None:
                _trace(connection, by, [request_of(row)], Did.ERASED, ("request",))
        return self._erase(REQUESTS.c.id == id) == 1

    def erase_old(self, at: datetime) -> int:
        """Forget the requests whose time is over; how many there were."""
        with answered(self._engine), self._engine.begin() as connection:
            connection.execute(delete(REQUEST_TRIES).where(REQUEST_TRIES.c.at < at - WINDOW))
        return self._erase(or_(REQUESTS.c.done < at - KEPT, REQUESTS.c.asked < at - LONGEST))

    def _erase(self, which: ColumnElement[bool]) -> int:
        ids = select(REQUESTS.c.id).where(which)
        with answered(self._engine), self._engine.begin() as connection:
            connection.execute(delete(OUTBOX).where(OUTBOX.c.request.in_(ids)))
            erased = connection.execute(delete(REQUESTS).where(which)).rowcount
        if erased:
            with answered(self._engine):
                sweep(self._reading)
        return erased

    def _change(self, query: Update) -> bool:
        with answered(self._engine), self._engine.begin() as connection:
            return bool(connection.execute(query).rowcount)


def _trace(
    connection: Connection, by: str, found: Iterable[Request], did: Did = Did.READ, fields: Sequence[str] = _SEEN
) -> None:
    """Write down who saw, or forgot, which requests; one that names a home stands in that home's trail, too."""
    keys = {each.id: str((each.asked.tried or {}).get("home") or "") for each in found}
    number = func.coalesce(HOMES.c.replaced_by, HOMES.c.id).label("number")
    wanted = select(HOMES.c.key, number).where(HOMES.c.key.in_(keys.values()))
    homes: dict[str, int] = {row.key: row.number for row in connection.execute(wanted)}
    trace_request(connection, named(by), did, {id: homes.get(key) for id, key in keys.items()}, fields)


def request_of(row: Row[Any]) -> Request:
    """The request that a row holds."""
    asked = Asked(row.sent, row.name, row.phone, Reach(row.reach), Pace(row.pace), row.tried)
    return Request(row.id, asked, row.asked, row.taken, row.taken_by, row.done, row.done_by)


def _row(asked: Asked, at: datetime) -> dict[str, Any]:
    return {
        "sent": asked.sent,
        "name": asked.name,
        "phone": asked.phone,
        "reach": asked.reach.value,
        "pace": asked.pace.value,
        "tried": dict(asked.tried) if asked.tried is not None else None,
        "asked": at,
    }


def _one_at_a_time(connection: Connection) -> None:
    """Let the limits hold, and the same form be taken once, also for two that are sent at the same moment."""
    if connection.dialect.name == "postgresql":
        connection.execute(text("LOCK TABLE request_tries IN SHARE ROW EXCLUSIVE MODE"))


def _too_many(connection: Connection, phone: str, address: str, since: datetime) -> bool:
    recent = select(func.count()).where(REQUEST_TRIES.c.at > since)
    to_number = connection.execute(recent.where(REQUEST_TRIES.c.phone == phone)).scalar_one()
    from_address = connection.execute(recent.where(REQUEST_TRIES.c.address == address)).scalar_one()
    return to_number >= MOST_FOR_A_NUMBER or from_address >= MOST_FROM_AN_ADDRESS

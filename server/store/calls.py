"""Which calls are there, whose are they, and what happened in each?"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Final

from sqlalchemy import Connection, Engine, Row, Select, insert, select, update

from kb.appointment import heard, read_left
from kb.desk.events import Did, Event
from server.store.answering import answered
from server.store.appointing import agree
from server.store.call_tables import CALLS, EVENTS

MOST_LISTED: Final = 100


@dataclass(frozen=True, slots=True)
class Kept:
    """A call as lists show it, with everything that happened in it."""

    id: str
    began: datetime
    holder: str
    home: str
    closed: datetime | None
    how: str
    follow: datetime | None
    events: tuple[Event, ...] = ()


class NoSuchCall(Exception):
    """There is no call of that id."""


class Calls:
    """The calls of one database; what happened is only ever added."""

    def __init__(self, engine: Engine, reading: Engine) -> None:
        """Use the store's own connections."""
        self._engine = engine
        self._reading = reading

    def begin(self, id: str, by: str, at: datetime) -> None:
        """Begin a call; one that was begun already stays as it is."""
        with answered(self._engine), self._engine.begin() as connection:
            if connection.execute(select(CALLS.c.id).where(CALLS.c.id == id)).first() is None:
                connection.execute(insert(CALLS).values(id=id, began=at, holder=by))

    def add(self, id: str, *events: Event) -> int:
        """Keep what happened, each event once; how many of them are new. Raises NoSuchCall."""
        with answered(self._engine), self._engine.begin() as connection:
            _locked(connection, id)
            return sum(keep_event(connection, id, event) for event in events)

    def call(self, id: str) -> Kept | None:
        """A call with everything that happened in it, or None."""
        with answered(self._engine), self._reading.connect() as connection:
            row = connection.execute(select(CALLS).where(CALLS.c.id == id)).first()
            return _kept(row, _events(connection, [id]).get(id, ())) if row else None

    def open(self) -> tuple[Kept, ...]:
        """Every call that nobody closed, the oldest first, each with its events."""
        return self._listed(select(CALLS).where(CALLS.c.closed.is_(None)).order_by(CALLS.c.began, CALLS.c.id))

    def to_follow(self, until: datetime) -> tuple[Kept, ...]:
        """The calls that were solved by phone and whose household is to be asked by a moment, the oldest first."""
        return self._listed(select(CALLS).where(CALLS.c.follow <= until).order_by(CALLS.c.follow, CALLS.c.id))

    def of_home(self, key: str, since: datetime, but: str = "") -> tuple[Kept, ...]:
        """The calls about a home since a moment, the newest first, without their events."""
        query = select(CALLS).where(CALLS.c.home == key, CALLS.c.began >= since, CALLS.c.id != but)
        with answered(self._engine), self._reading.connect() as connection:
            rows = connection.execute(query.order_by(CALLS.c.began.desc(), CALLS.c.id).limit(MOST_LISTED)).all()
        return tuple(_kept(row) for row in rows)

    def _listed(self, query: Select[Any]) -> tuple[Kept, ...]:
        with answered(self._engine), self._reading.connect() as connection:
            rows = connection.execute(query.limit(MOST_LISTED)).all()
            events = _events(connection, [row.id for row in rows])
        return tuple(_kept(row, events.get(row.id, ())) for row in rows)


def keep_event(connection: Connection, call: str, event: Event) -> bool:
    """Keep what happened in a call that is locked, with all that follows from it for lists; whether it is new."""
    sent = select(EVENTS.c.number).where(EVENTS.c.call == call, EVENTS.c.id == event.id)
    if connection.execute(sent).first():
        return False
    connection.execute(insert(EVENTS).values(call=call, **_row(event)))
    changes = _changes(event)
    if changes:
        connection.execute(update(CALLS).where(CALLS.c.id == call).values(**changes))
    if event.did is Did.BOOKED and (agreed := heard(event.said, event.by, event.at)):
        agree(connection, f"{call}:{event.id}", agreed, call=call)
    if event.did is Did.NOT_MADE and (left := read_left(event.said, event.by, event.at)):
        agree(connection, f"{call}:{event.id}", left, call=call)
    return True


def _locked(connection: Connection, id: str) -> None:
    # SQLite lets one transaction write at a time; PostgreSQL holds the row until the transaction ends.
    if connection.execute(select(CALLS.c.id).where(CALLS.c.id == id).with_for_update()).first() is None:
        raise NoSuchCall


def _changes(event: Event) -> Mapping[str, Any]:
    """What an event changes of the row that lists show."""
    match event.did:
        case Did.HOME:
            return {"home": event.get("key") or None}
        case Did.HANDED:
            return {"holder": event.get("to")[:60]}
        case Did.CLOSED:
            return {"closed": event.at, "how": event.get("how")[:20], "follow": _moment(event.get("follow"))}
        case Did.FOLLOWED:
            return {"follow": None}
    return {}


def _moment(written: str) -> datetime | None:
    return datetime.fromisoformat(written) if written else None


def _row(event: Event) -> Mapping[str, Any]:
    return {"id": event.id, "at": event.at, "by": event.by, "did": event.did.value, "said": dict(event.said)}


def _events(connection: Connection, ids: Iterable[str]) -> dict[str, tuple[Event, ...]]:
    found: dict[str, list[Event]] = {}
    for row in connection.execute(select(EVENTS).where(EVENTS.c.call.in_(list(ids))).order_by(EVENTS.c.number)):
        found.setdefault(row.call, []).append(Event(row.id, row.at, row.by, Did(row.did), row.said))
    return {id: tuple(events) for id, events in found.items()}


def _kept(row: Row[Any], events: tuple[Event, ...] = ()) -> Kept:
    return Kept(row.id, row.began, row.holder, row.home or "", row.closed, row.how or "", row.follow, events)

"""What is still to be told, who is telling it just now, and what stands in the way?"""

from dataclasses import dataclass
from datetime import datetime, timedelta
from secrets import token_hex
from typing import Any, Final

from sqlalchemy import Engine, Select, case, func, or_, select, update

from kb.callback import reference_of
from server.store.answering import answered
from server.store.request_tables import OUTBOX, REQUESTS
from server.store.requests import Request, request_of

LEASE: Final = timedelta(minutes=5)
"""How long a claim stands: far longer than one try may take, so that nobody else tries meanwhile."""

_LONGEST_WHY: Final = 300


@dataclass(frozen=True, slots=True)
class Letter:
    """One thing to tell in one way, claimed by whoever holds this: its `key` stays the same for every try."""

    id: int
    key: str
    claim: str
    tries: int
    request: Request


@dataclass(frozen=True, slots=True)
class Waiting:
    """What is not told yet: of which request, in which way, since when, how often it was tried, and what was wrong."""

    reference: str
    way: str
    since: datetime
    tries: int
    due: datetime
    why: str


class Outbox:
    """What one firm is still to be told; any number of processes may empty it together."""

    def __init__(self, engine: Engine, reading: Engine) -> None:
        """Use the store's own connections."""
        self._engine = engine
        self._reading = reading

    def claim(self, way: str, at: datetime) -> Letter | None:
        """The next letter that is due in a way, for this caller alone until the lease ends; None for none."""
        due = _open(way, at).order_by(OUTBOX.c.due, OUTBOX.c.id).limit(1)
        with answered(self._engine), self._engine.begin() as connection:
            row = connection.execute(due.with_for_update(skip_locked=True)).first()
            if row is None:
                return None
            claim = token_hex(16)
            held = {"claim": claim, "claimed_until": at + LEASE, "tries": row.tries + 1}
            connection.execute(update(OUTBOX).where(OUTBOX.c.id == row.id).values(held))
            request = connection.execute(select(REQUESTS).where(REQUESTS.c.id == row.request)).one()
        return Letter(row.id, row.key, claim, row.tries + 1, request_of(request))

    def sent(self, letter: Letter, at: datetime) -> bool:
        """Note that a letter was told; False if the claim is no longer the holder's."""
        return self._release(letter, sent=at, why="")

    def failed(self, letter: Letter, why: str, again: datetime) -> bool:
        """Note why a letter could not be told, and when to try again; False if the claim is no longer the holder's."""
        return self._release(letter, why=why[:_LONGEST_WHY], due=again)

    def next_due(self, way: str) -> datetime | None:
        """When something is to be tried next in a way; None while there is nothing."""
        free = case((OUTBOX.c.claimed_until > OUTBOX.c.due, OUTBOX.c.claimed_until), else_=OUTBOX.c.due)
        query = select(func.min(free)).where(OUTBOX.c.way == way, OUTBOX.c.sent.is_(None))
        with answered(self._engine), self._reading.connect() as connection:
            due: datetime | None = connection.execute(query).scalar_one()
        return due

    def waiting(self) -> tuple[Waiting, ...]:
        """All that is not told yet, the oldest first."""
        told, asked = OUTBOX.c, REQUESTS.c
        query = select(told.way, told.tries, told.due, told.why, asked.sent, asked.asked)
        query = query.join(REQUESTS, asked.id == told.request).where(told.sent.is_(None))
        with answered(self._engine), self._reading.connect() as connection:
            rows = connection.execute(query.order_by(asked.asked, told.id)).all()
        return tuple(Waiting(reference_of(row.sent), row.way, row.asked, row.tries, row.due, row.why) for row in rows)

    def _release(self, letter: Letter, **values: Any) -> bool:
        query = update(OUTBOX).where(OUTBOX.c.id == letter.id, OUTBOX.c.claim == letter.claim)
        with answered(self._engine), self._engine.begin() as connection:
            return bool(connection.execute(query.values(claim=None, claimed_until=None, **values)).rowcount)


def _open(way: str, at: datetime) -> Select[Any]:
    free = or_(OUTBOX.c.claimed_until.is_(None), OUTBOX.c.claimed_until <= at)
    return select(OUTBOX).where(OUTBOX.c.way == way, OUTBOX.c.sent.is_(None), OUTBOX.c.due <= at, free)

"""Which visits are still to be made, what was agreed of each, and how is one moved?"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any, Final

from sqlalchemy import Connection, Engine, Row, and_, func, or_, select, update

from kb.appointment import AGAIN, OFF, Appointment, NotMade, Turn, kept, said
from kb.desk.events import Did, Event
from kb.visit.job import Job, Return
from server.store.answering import answered
from server.store.appointing import agree, trail_of, turn_of
from server.store.appointment_tables import APPOINTMENTS, RETURNS
from server.store.call_tables import CALLS
from server.store.calls import keep_event
from server.store.job_rows import return_of
from server.store.job_tables import JOBS

MOST: Final = 300


@dataclass(frozen=True, slots=True)
class ToVisit:
    """A visit still to be made: a booked call that nobody took, or a job that is not closed.

    `owner` is who has the job, or who the appointment names; `job` is empty until somebody took it.
    `missed` says that it was not made as it was agreed, as long as nothing was agreed anew.
    """

    call: str
    job: str
    key: str
    article: str
    owner: str
    since: datetime
    agreed: Appointment | None = None
    returns: Return | None = None
    missed: NotMade | None = None

    @property
    def id(self) -> str:
        """What names it in an address, whether somebody took it meanwhile or not."""
        return f"c-{self.call}" if self.call else f"j-{self.job}"


class Appointments:
    """What the visits of one database came to; it is only ever added to."""

    def __init__(self, engine: Engine, reading: Engine) -> None:
        """Use the store's own connections."""
        self._engine = engine
        self._reading = reading

    def to_visit(self) -> tuple[ToVisit, ...]:
        """Every visit still to be made, those that wait longest first."""
        with answered(self._engine), self._reading.connect() as connection:
            return tuple(_to_visit(connection))

    def one(self, id: str) -> ToVisit | None:
        """A visit still to be made by its name in an address; None where there is none."""
        with answered(self._engine), self._reading.connect() as connection:
            return next(iter(_to_visit(connection, id)), None)

    def trail(self, visit: ToVisit) -> tuple[Turn, ...]:
        """Everything that a visit came to, the oldest first."""
        return self._trail(visit.call, visit.job)

    def trail_of(self, job: Job) -> tuple[Turn, ...]:
        """The same of a job, closed or not."""
        return self._trail(job.call, job.id)

    def _trail(self, call: str, job: str) -> tuple[Turn, ...]:
        with answered(self._engine), self._reading.connect() as connection:
            return trail_of(connection, call, "" if call else job)

    def move(self, id: str, agreed: Appointment, sent: str) -> bool:
        """Agree a visit anew, once for what was sent under one id; False for one that is not to be made any more.

        Who is named then has its job, too, if it was taken.
        """
        with answered(self._engine), self._engine.begin() as connection:
            _lock(connection, id)
            found = next(iter(_to_visit(connection, id)), None)
            if found is None:
                return False
            _keep(connection, found, agreed, sent)
            if found.job:
                connection.execute(update(JOBS).where(JOBS.c.id == found.job).values(by=agreed.engineer))
        return True

    def leave(self, id: str, turn: NotMade, sent: str, stood: int | None = None) -> bool:
        """Call a visit off, or let another time be agreed; False for one that is not to be made any more.

        `stood` says how long the trail was that somebody saw: what was agreed since then stays, and this is False.
        Who had the job has it no more where another time is to be agreed.
        """
        with answered(self._engine), self._engine.begin() as connection:
            _lock(connection, id)
            found = next(iter(_to_visit(connection, id)), None)
            if found is None:
                return False
            trail = trail_of(connection, found.call, "" if found.call else found.job)
            if stood is not None and stood != len(trail):
                return False
            _keep(connection, found, turn, sent)
            if found.job and turn.what == AGAIN:
                mine = (JOBS.c.id == found.job, JOBS.c.closed.is_(None))
                connection.execute(update(JOBS).where(*mine).values(by=""))
        return True

    def take(self, job: str, by: str, at: datetime) -> bool:
        """Let an account have a job that is open, whoever had it before; whether there is such a job."""
        with answered(self._engine), self._engine.begin() as connection:
            _lock(connection, f"j-{job}")
            found = next(iter(_to_visit(connection, f"j-{job}")), None)
            if found is None:
                return False
            connection.execute(update(JOBS).where(JOBS.c.id == job).values(by=by))
            if found.agreed is not None and found.agreed.engineer != by:
                taken = replace(found.agreed, engineer=by, by=by, at=at)
                _keep(connection, found, taken, f"taken-{at.isoformat()}")
        return True


def _keep(connection: Connection, visit: ToVisit, agreed: Turn, sent: str) -> None:
    if visit.call:
        assert agreed.at is not None
        did, words = (Did.NOT_MADE, kept(agreed)) if isinstance(agreed, NotMade) else (Did.BOOKED, said(agreed))
        keep_event(connection, visit.call, Event(sent, agreed.at, agreed.by, did, words))
    else:
        agree(connection, f"{visit.job}:{sent}"[:120], agreed, job=visit.job)


def _lock(connection: Connection, id: str) -> None:
    """Let nobody else change a visit before the transaction ends; what is read after this is how it stands."""
    kind, _, name = id.partition("-")
    table = CALLS if kind == "c" else JOBS
    connection.execute(select(table.c.id).where(table.c.id == name).with_for_update()).first()


def _to_visit(connection: Connection, id: str = "") -> list[ToVisit]:
    kind, _, name = id.partition("-")
    if id and not (kind in ("c", "j") and name):
        return []
    calls = [] if kind == "j" else _untaken(connection, name)
    found = [*calls, *_open(connection, name if kind == "j" else "", name if kind == "c" else "")]
    agreed = _agreed(connection, [each.call for each in found], [each.job for each in found if not each.call])
    return [_with(each, agreed.get(each.id)) for each in sorted(found, key=lambda each: each.since)]


def _with(visit: ToVisit, turn: Turn | None) -> ToVisit:
    if isinstance(turn, NotMade):
        return replace(visit, missed=turn)
    agreed = turn
    owner = visit.owner if visit.job else agreed.engineer if agreed else ""
    return replace(visit, agreed=agreed, owner=owner)


def _untaken(connection: Connection, id: str) -> list[ToVisit]:
    taken = select(JOBS.c.id).where(JOBS.c.call == CALLS.c.id).exists()
    told = select(APPOINTMENTS.c.id).where(APPOINTMENTS.c.call == CALLS.c.id)
    agreed, off = told.exists(), told.where(APPOINTMENTS.c.stands == OFF).exists()
    # Where the emergency service goes first, a visit was agreed for afterwards or there is none.
    to_come = or_(CALLS.c.how == "booked", and_(CALLS.c.how == "emergency", agreed))
    query = select(CALLS).where(to_come, ~taken, ~off).order_by(CALLS.c.closed, CALLS.c.id).limit(MOST)
    query = query.where(CALLS.c.id == id) if id else query
    rows = connection.execute(query).all()
    return [ToVisit(row.id, "", row.home or "", "", "", row.began) for row in rows]


def _open(connection: Connection, id: str, call: str) -> list[ToVisit]:
    told = or_(APPOINTMENTS.c.job == JOBS.c.id, APPOINTMENTS.c.call == JOBS.c.call)
    off = select(APPOINTMENTS.c.id).where(told, APPOINTMENTS.c.stands == OFF).exists()
    query = select(JOBS).where(JOBS.c.closed.is_(None), ~off).order_by(JOBS.c.begun, JOBS.c.id).limit(MOST)
    query = query.where(JOBS.c.id == id) if id else query
    query = query.where(JOBS.c.call == call) if call else query
    rows = connection.execute(query).all()
    again = _returns(connection, [row.id for row in rows])
    return [
        ToVisit(row.call or "", row.id, row.key or "", row.category, row.by, row.begun, returns=again.get(row.id))
        for row in rows
    ]


def _returns(connection: Connection, jobs: Sequence[str]) -> Mapping[str, Return]:
    rows = connection.execute(select(RETURNS).where(RETURNS.c.job.in_(jobs))).all()
    return {row.job: return_of(row) for row in rows}


def _agreed(connection: Connection, calls: Sequence[str], jobs: Sequence[str]) -> Mapping[str, Turn]:
    """What each visit came to last, by its name."""
    mine = or_(APPOINTMENTS.c.call.in_([each for each in calls if each]), APPOINTMENTS.c.job.in_(jobs))
    last = select(func.max(APPOINTMENTS.c.number)).where(mine).group_by(APPOINTMENTS.c.call, APPOINTMENTS.c.job)
    rows: Sequence[Row[Any]] = connection.execute(select(APPOINTMENTS).where(APPOINTMENTS.c.number.in_(last))).all()
    return {f"c-{row.call}" if row.call else f"j-{row.job}": turn_of(row) for row in rows}

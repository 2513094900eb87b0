"""What is counted of a call or a job that is over?"""

from collections.abc import Iterator, Sequence
from datetime import datetime
from typing import Final
from zoneinfo import ZoneInfo

from kb.article import Step
from kb.desk.call import Branch
from kb.desk.danger import Agenda, Asked, Said
from kb.desk.events import Did, Event
from kb.desk.reading import Reading, degrees, read
from kb.desk.script import NoSuchFault, Place, place
from kb.facts import NOTHING_KNOWN, Known
from kb.figures.rows import CallRow, JobRow, Stop
from kb.figures.weeks import Week
from kb.figures.words import OTHER
from kb.library import Library
from kb.visit.job import Job

FIXED: Final = "fixed"
"""How a job was closed whose fault is gone."""


def call_row(
    library: Library,
    id: str,
    began: datetime,
    events: Sequence[Event],
    zone: ZoneInfo,
    home: int | None = None,
    known: Known = NOTHING_KNOWN,
    upto: int = 0,
) -> CallRow | None:
    """A finished call as it is counted, None while it is open.

    Where an article of it is gone from the library, what the walk would have told is left out.
    """
    closing = next((event for event in reversed(events) if event.did is Did.CLOSED), None)
    if closing is None:
        return None
    day = began.astimezone(zone).date()
    try:
        reading: Reading | None = read(library, events, day, known)
    except NoSuchFault:
        reading = None
    stuck = _stuck(reading.agenda, began) if reading else ("", None)
    return CallRow(
        id=id,
        began=began,
        closed=closing.at,
        week=Week.of(day),
        category=_category(library, reading) if reading else OTHER,
        how=closing.get("how"),
        home=home,
        danger=_danger(reading.agenda, began) if reading else None,
        back=any(event.did is Did.FOLLOWED and event.get("works") == "no" for event in events),
        pace=reading.pace.value if reading else "",
        outdoor=degrees(reading.call.people.get("outdoor", "")) if reading else None,
        stops=tuple(_stops(library, reading, closing.get("how"), known)) if reading else (),
        upto=upto,
        stuck=stuck[0],
        stuck_for=stuck[1],
    )


def job_row(library: Library, job: Job, zone: ZoneInfo, home: int | None = None) -> JobRow | None:
    """A closed job as it is counted, None while it is open."""
    if job.closed is None:
        return None
    article = library.articles.get(job.article)
    return JobRow(
        id=job.id,
        closed=job.closed.at,
        week=Week.of(job.closed.at.astimezone(zone).date()),
        category=(article.header.category if article else None) or job.article,
        cause=job.closed.cause,
        home=home,
        expected=job.closed.predicted[:2] if job.returns is None else (),
        fixed=job.closed.outcome == FIXED,
        returns=job.returns is not None,
        minutes=job.closed.minutes,
        taken=frozenset(job.closed.taken),
        used=frozenset(job.closed.used),
    )


def _category(library: Library, reading: Reading) -> str:
    """That of the danger a call came to, else of the last fault that the answers led to."""
    if reading.agenda.end is not None and reading.agenda.end.emergency:
        return reading.agenda.end.emergency
    for found in reversed(reading.places):
        walked = [found.branch.article, *(taken.step.article for taken in found.standing.taken)]
        for each in reversed(walked):
            category = library.articles[each].header.category if each in library.articles else None
            if category:
                return category
    return OTHER


def _danger(agenda: Agenda, began: datetime) -> float | None:
    """After how many seconds every danger question had its answer for the first time, or one had a yes."""
    asked = _first_round(agenda)
    return (asked[-1].at - began).total_seconds() if asked else None


def _stuck(agenda: Agenda, began: datetime) -> tuple[str, float | None]:
    """The danger question of the first round that took longest, or the one that never got its answer."""
    asked = _first_round(agenda)
    if not asked:
        return next(((str(step.target), None) for step in agenda.waiting), ("", None))
    since = [began, *(each.at for each in asked)]
    took = [(each.at - before).total_seconds() for before, each in zip(since, asked, strict=False)]
    longest = max(range(len(took)), key=took.__getitem__)
    return str(asked[longest].step.target), took[longest]


def _first_round(agenda: Agenda) -> tuple[Asked, ...]:
    """The answers until all questions had one, or until a yes; none where it never came to that."""
    seen: set[str] = set()
    wanted = {each.step.anchor for each in agenda.answered} | {step.anchor for step in agenda.waiting}
    for number, each in enumerate(agenda.answered, 1):
        seen.add(each.step.anchor)
        if each.said is not Said.NO or seen == wanted:
            return agenda.answered[:number]
    return ()


def _stops(library: Library, reading: Reading, how: str, known: Known) -> Iterator[Stop]:
    """Where the household stopped before it rang, and where the walk stopped with the desk."""
    for found in reading.places:
        if found.branch.how != "desk" and found.branch.came:
            before = _alone(library, found.branch, known)
            if isinstance(before.at, Step):
                yield Stop(str(before.at.target), alone=True)
    last = reading.place
    if last is None or how == "solved" or reading.agenda.end is not None:
        return
    stopped = last.cannot or last.at
    if isinstance(stopped, Step):
        yield Stop(str(stopped.target), alone=False)


def _alone(library: Library, branch: Branch, known: Known) -> Place:
    """Where the answers led that came with the reference."""
    came = Branch(branch.article, branch.given[: branch.came], branch.how, branch.came)
    return place(library, came, known)

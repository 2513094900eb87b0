"""May a visit be about danger, and so be left only with care; what does a form say that leaves it?"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final

from kb.appointment import CAUTION, OFF, REASONS, UNSAFE, NotMade, Unfit, leave, left
from kb.article import Pace
from kb.desk.events import Did
from kb.desk.reading import Reading
from kb.desk.words import day_and_time
from kb.visit.job import ANSWER, Job
from server.diary.reading import reading_of
from server.site import Site
from server.store.appointments import ToVisit

_GRAVE: Final = (Pace.LEAVE, Pace.MAKE_SAFE)
_DANGER: Final = f"{ANSWER}danger#"


@dataclass(frozen=True, slots=True)
class Leaving:
    """What a form asks that leaves a visit: the reasons, the caution where it may be about danger, what was typed."""

    reasons: tuple[tuple[str, str], ...]
    caution: str
    unsafe: str
    reason: str
    words: str


def leaving(site: Site, visit: ToVisit, form: Mapping[str, str]) -> Leaving:
    """The form that leaves a visit."""
    return Leaving(
        reasons=tuple(REASONS.items()),
        caution=CAUTION if is_grave(site, visit) else "",
        unsafe=UNSAFE if is_unsafe(site, visit) else "",
        reason=form.get("reason", ""),
        words=form.get("words", ""),
    )


def not_made(
    site: Site, visit: ToVisit, what: str, reason: str, words: str, by: str, stopped: bool = False
) -> NotMade | Unfit | str:
    """A visit that is left, or what is wrong with that; `stopped` says that its checks came to something unsafe."""
    if what == OFF and (stopped or is_unsafe(site, visit)):
        return UNSAFE
    found = leave(what, reason, one_line(words), is_grave(site, visit))
    return found if isinstance(found, Unfit) else replace(found, by=by, at=site.now())


def is_grave(site: Site, visit: ToVisit) -> bool:
    """Whether a visit may be about danger: by its pace, by its call, by the visit before, or by what was found."""
    first = site.store.jobs.job(visit.returns.job) if visit.returns else None
    call = visit.call or (visit.returns.call if visit.returns else "")
    reading = reading_of(site, call)
    found_before = first is not None and first.closed is not None and bool(first.closed.unsafe)
    job = site.store.jobs.job(visit.job) if visit.job else None
    # A call that can't be read any more counts as one about danger.
    by_call = _came_to_danger(reading) if reading is not None else bool(call)
    return found_before or by_call or (job is not None and _danger(job))


def is_unsafe(site: Site, visit: ToVisit) -> bool:
    """Whether something unsafe was found on the visit itself, which nobody can call off."""
    job = site.store.jobs.job(visit.job) if visit.job else None
    return job is not None and job.texts.get("unsafe") == "yes"


def missed(site: Site, visit: ToVisit) -> str:
    """That a visit was not made as it was agreed, when and by whom, in words; nothing where it was not missed."""
    turn = visit.missed
    if turn is None or turn.at is None:
        return ""
    return f"{left(turn)} {turn.by}, {day_and_time(turn.at, site.firm.clock)}"


def _came_to_danger(reading: Reading) -> bool:
    """A yes that was taken back counts as well, and so does one that was handed to the emergency service."""
    said_yes = any(event.get("answer") == "yes" for event in reading.call.of(Did.ASKED))
    return reading.pace in _GRAVE or reading.agenda.end is not None or said_yes or reading.call.closed == "emergency"


def _danger(job: Job) -> bool:
    return any(text for field, text in job.texts.items() if field.startswith(_DANGER))


def one_line(typed: str) -> str:
    """Words in one line, without what some kind of database would refuse."""
    return " ".join("".join(sign for sign in typed if sign.isprintable() or sign.isspace()).split())

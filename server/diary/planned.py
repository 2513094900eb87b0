"""Which visits are still to be made, the most pressing first, and which are overdue?"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Final

from kb.appointment import due, moment, words
from kb.article import Pace
from kb.desk.reading import Reading
from kb.visit.from_call import article_of
from kb.visit.job import FETCHES
from server.diary.reading import home_of, reading_of
from server.site import Site
from server.store.appointments import ToVisit

NOT_FOUND_OUT: Final = "No fault was found out"
ANYBODY: Final = "Whoever is free"
NO_DAY: Final = "No day agreed yet"


@dataclass(frozen=True, slots=True)
class Planned:
    """A visit still to be made, with all that lists show of it.

    `fault` is the article it is about, empty where nobody knows; `latest` is by when the pace wants somebody there;
    `overdue` says in words that this has passed, or that the agreed time has.
    """

    visit: ToVisit
    title: str
    fault: str
    where: str
    pace: Pace
    latest: datetime | None
    overdue: str
    part: str

    @property
    def when(self) -> str:
        """What was agreed, in words."""
        return words(self.visit.agreed.window) if self.visit.agreed else NO_DAY


def planned(site: Site, by: str, id: str = "") -> tuple[Planned, ...]:
    """Every visit still to be made, or the one of this id: the soonest pace first, then by the agreed time.

    Where they are is read from the register, so `by` stands in its trail.
    """
    if id:
        one = site.store.appointments.one(id)
        visits: tuple[ToVisit, ...] = (one,) if one else ()
    else:
        visits = site.store.appointments.to_visit()
    found = [(visit, reading_of(site, told_in(visit))) for visit in visits]
    keys = dict.fromkeys(key for visit, reading in found if (key := _key(visit, reading)))
    hits = site.store.lists.hits(tuple(keys), by) if keys else ()
    where = {hit.key: ", ".join(filter(None, (*hit.lines, hit.town, hit.postcode))) for hit in hits}
    made = [_planned(site, visit, reading, where) for visit, reading in found]
    return tuple(sorted(made, key=lambda each: _order(site, each)))


def told_in(visit: ToVisit) -> str:
    """The call in which it was told."""
    return visit.call or (visit.returns.call if visit.returns else "")


def _planned(site: Site, visit: ToVisit, reading: Reading | None, where: Mapping[str, str]) -> Planned:
    article = site.library.articles.get(visit.article) if visit.article else None
    if article is None and reading is not None and not visit.job:
        article = article_of(site.library, reading)
    pace = reading.pace if reading else Pace.ROUTINE
    # A second visit keeps what was agreed for it; the pace was kept, or not, by the first.
    began = reading.call.began if reading and not visit.returns else None
    latest = due(pace, began, site.firm.clock) if began else None
    return Planned(
        visit=visit,
        title=article.title if article else NOT_FOUND_OUT,
        fault=article.id if article else "",
        where=_where(site, visit, reading, where),
        pace=pace,
        latest=latest,
        overdue=_overdue(site, visit, latest),
        part=_part(visit),
    )


def _key(visit: ToVisit, reading: Reading | None) -> str:
    return visit.key or (reading.call.key or "" if reading else "")


def _where(site: Site, visit: ToVisit, reading: Reading | None, where: Mapping[str, str]) -> str:
    key = _key(visit, reading)
    home = home_of(site, key)
    if home is None:
        return (reading.call.caller.get("address") if reading else "") or "Home not known"
    return ". ".join(filter(None, (where.get(key), home.appliance))) if where.get(key) else f"{home.appliance}, {key}"


def _overdue(site: Site, visit: ToVisit, latest: datetime | None) -> str:
    now, zone = site.now(), site.firm.clock
    if visit.agreed is not None and visit.agreed.window.ends(zone) < now:
        return "Overdue: the agreed time has passed"
    if latest is not None and latest < now:
        return f"Overdue: the pace wanted somebody there by {moment(latest, zone)}"
    return ""


def _part(visit: ToVisit) -> str:
    why = visit.returns
    if why is None:
        return ""
    if not why.part:
        return "Second visit"
    ready = f", there by {why.ready:%-d %B}" if why.ready else ""
    return f"Second visit, with: {why.part}. {FETCHES.get(why.who, why.who)}{ready}"


def _order(site: Site, each: Planned) -> tuple[int, datetime, str]:
    agreed = each.visit.agreed
    begins = agreed.window.begins(site.firm.clock) if agreed else each.visit.since
    return tuple(Pace).index(each.pace), begins, each.visit.id


def at_that_time(found: Iterable[ToVisit], day: str, part: tuple[int, int]) -> int:
    """How many visits are agreed for a part of a day."""
    agreed = (each.agreed.window for each in found if each.agreed)
    return sum(str(w.day) == day and w.opens < part[1] and w.closes > part[0] for w in agreed)

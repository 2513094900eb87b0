"""Which times and engineers are offered for a visit, and what does somebody choose?"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from kb.appointment import Appointment, Unfit, Window, agree, due, moment, offers, read_window, typed_window, words
from kb.article import Pace
from kb.staff import Role
from server.diary.planned import ANYBODY, at_that_time
from server.site import Site

LONGEST_WHY = 400


@dataclass(frozen=True, slots=True)
class Offered:
    """A window on a key: what a form sends for it, in words, and what is worth knowing of it."""

    key: str
    value: str
    words: str
    hint: str


@dataclass(frozen=True, slots=True)
class Booking:
    """What a page of booking offers, with what was typed; `until` says by when the pace wants somebody there."""

    windows: tuple[Offered, ...]
    engineers: tuple[str, ...]
    engineer: str
    until: str
    day: str
    opens: str
    closes: str
    why: str


def booking(site: Site, pace: Pace, asked: datetime | None, engineer: str, form: Mapping[str, str]) -> Booking:
    """What is offered for a pace that began to run when it was asked for; None for one that runs no more."""
    zone, now = site.firm.clock, site.now()
    found = offers(site.firm.hours, zone, pace if asked else Pace.ROUTINE, asked or now, now)
    latest = due(pace, asked, zone) if asked else None
    taken = site.store.appointments.to_visit()
    offered = (
        Offered(str(number), window.sent, words(window), _hint(window, at_that_time(taken, *_span(window))))
        for number, window in enumerate(found, 1)
    )
    return Booking(
        windows=tuple(offered),
        engineers=engineers(site),
        engineer=form.get("engineer", engineer),
        until=moment(latest, zone) if latest else "",
        day=form.get("day", ""),
        opens=form.get("opens", ""),
        closes=form.get("closes", ""),
        why=form.get("why", "")[:LONGEST_WHY],
    )


def engineers(site: Site) -> tuple[str, ...]:
    """Everybody who may be sent."""
    return tuple(each.name for each in site.store.staff.accounts() if each.may(Role.ENGINEER))


def chosen(
    site: Site, pace: Pace, asked: datetime | None, form: Mapping[str, str], why: str, by: str
) -> Appointment | Unfit:
    """What somebody chose on such a page, or what is wrong with it."""
    engineer = form.get("engineer", "")
    if engineer and engineer not in engineers(site):
        return Unfit("one of our engineers", f"“{engineer[:40]}”", "Choose from the list, or whoever is free.")
    sent = form.get("window", "")
    zone, now = site.firm.clock, site.now()
    today = now.astimezone(zone).date()
    window: Window | Unfit
    if sent:
        window = read_window(sent)
    else:
        window = typed_window(form.get("day", ""), form.get("opens", ""), form.get("closes", ""), today)
    latest = due(pace, asked, zone) if asked else None
    found = agree(window, engineer, why[:LONGEST_WHY], latest, now, zone)
    if isinstance(found, Unfit):
        return found
    return Appointment(found.window, found.engineer, found.why, found.latest, by, now)


def agreed_words(agreed: Appointment | None) -> str:
    """What was agreed so far, in words; nothing where nothing was."""
    return f"{words(agreed.window)}, {agreed.engineer or ANYBODY.lower()}" if agreed else ""


def _span(window: Window) -> tuple[str, tuple[int, int]]:
    return str(window.day), (window.opens, window.closes)


def _hint(window: Window, taken: int) -> str:
    then = f"{taken} visit{'' if taken == 1 else 's'} then already" if taken else ""
    return ", ".join(filter(None, ("outside our hours" if window.outside else "", then)))

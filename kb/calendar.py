"""What falls due, as a calendar that other programs read (RFC 5545), and the firm as an address card (RFC 6350).

The only module that knows icalendar.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Final
from urllib.parse import urlsplit

from icalendar import Calendar, Event, vText
from icalendar.parser import Contentline

from kb.firm import Firm, Phone
from kb.register import ALARMS, DUE, Due

_PRODUCT: Final = "-//Tundish//What is due//EN"
_REFRESH: Final = timedelta(hours=12)


@dataclass(frozen=True, slots=True)
class Coming:
    """A visit of somebody's own: what names it, the appliance, when, where about, and where its brief lies."""

    id: str
    appliance: str
    begins: datetime
    ends: datetime
    town: str
    postcode: str
    link: str


def calendar(
    found: Iterable[Due], firm: Firm, at: datetime, link: Callable[[int], str], visits: Iterable[Coming] = ()
) -> bytes:
    """What falls due as all-day events: the kind, the appliance, the town and the first part of the postcode.

    An engineer's own visits stand beside it at their times, and say no more than that.

    A calendar is copied to other people's machines.
    So nothing of it tells who lives where, and the link opens for those who sign in alone.
    """
    made = Calendar()
    made.add("prodid", _PRODUCT)
    made.add("version", "2.0")
    made.add("method", "PUBLISH")
    made.add("x-wr-calname", f"{firm.name}: what is due")
    made.add("refresh-interval", _REFRESH, {"value": "DURATION"})
    host = urlsplit(firm.site).hostname or "tundish"
    seen: dict[str, int] = {}
    for due in found:
        name = f"{due.kind}-{due.home}-{due.day:%Y%m%d}"
        seen[name] = seen.get(name, 0) + 1
        made.add_component(_event(due, f"{name}-{seen[name]}@{host}", at, link(due.home)))
    for visit in visits:
        made.add_component(_visit(visit, f"visit-{visit.id}@{host}", at))
    return bytes(made.to_ical())


def _visit(visit: Coming, uid: str, at: datetime) -> Event:
    event = Event()
    event.add("uid", uid)
    event.add("dtstamp", at)
    event.add("dtstart", visit.begins)
    event.add("dtend", visit.ends)
    event.add("summary", f"Visit: {visit.appliance or 'home not known'}")
    where = " ".join(part for part in (visit.town, outward(visit.postcode)) if part)
    if where:
        event.add("location", where)
    event.add("url", visit.link)
    return event


def _event(due: Due, uid: str, at: datetime, link: str) -> Event:
    event = Event()
    event.add("uid", uid)
    event.add("dtstamp", at)
    event.add("dtstart", due.day)
    event.add("dtend", due.day + timedelta(days=1))
    event.add("summary", f"{DUE[due.kind]}: {_thing(due)}")
    where = " ".join(part for part in (due.town, outward(due.postcode)) if part)
    if where:
        event.add("location", where)
    event.add("url", link)
    event.add("transp", "TRANSPARENT")
    return event


def _thing(due: Due) -> str:
    # Where an alarm hangs is said in free words, which may name somebody.
    kinds = (words for words in ALARMS.values() if due.what.startswith(words))
    return next(kinds, "alarm") if due.kind == "alarm" else due.what


def outward(postcode: str) -> str:
    """The first part of a postcode, which stands for some thousand homes."""
    return postcode.split(" ")[0] if " " in postcode else ""


def address_card(firm: Firm, gas: str) -> bytes:
    """The firm for the contacts of a phone; its note gives the number to ring first at a smell of gas."""
    lines = [
        ("BEGIN", "VCARD"),
        ("VERSION", "4.0"),
        ("KIND", "org"),
        ("FN", _text(firm.name)),
        ("ORG", _text(firm.name)),
        *(_phone(firm, phone, n) for n, phone in enumerate(firm.phones, 1)),
        ("ADR;TYPE=work", f";;;{_text(firm.town)};;;"),
        ("URL", firm.site),
        ("NOTE", _text(f"Smell of gas? Go outside and ring {gas} first. {firm.registration}.")),
        ("END", "VCARD"),
    ]
    return b"".join(_folded(f"{name}:{value}") for name, value in lines)


def _text(words: str) -> str:
    """Words with what stands for something else in a line escaped, which both standards do alike."""
    return vText(words).to_ical().decode()


def _folded(line: str) -> bytes:
    """A line of at most 75 octets, going on in the next (RFC 6350, 3.2, as in RFC 5545, 3.1)."""
    folded: bytes = Contentline(line).to_ical()  # type: ignore[no-untyped-call]  # the library ships no types here
    return folded + b"\r\n"


def _phone(firm: Firm, phone: Phone, preference: int) -> tuple[str, str]:
    kinds = ["work", "cell" if phone.what == "mobile" else "voice", *(["text"] if phone.sms else [])]
    return f'TEL;VALUE=uri;PREF={preference};TYPE="{",".join(kinds)}"', firm.tel(phone.number)

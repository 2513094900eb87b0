"""What stands around every page: the danger line, the firm and its number, the mark of a demo."""

from dataclasses import dataclass
from datetime import datetime

from kb.firm import Firm
from server.site import Site
from server.web.static import stylesheet


@dataclass(frozen=True, slots=True)
class PhoneLink:
    """A number to show and the address that dials it."""

    number: str
    tel: str


@dataclass(frozen=True, slots=True)
class Frame:
    """The surroundings of a page; `base` is put before every address, and is a home's own behind its key."""

    firm: str
    phone: PhoneLink
    gas: PhoneLink
    gas_name: str
    hours: str
    language: str
    demo: bool
    base: str
    stylesheet: str


def frame(site: Site, base: str = "") -> Frame:
    """The frame of this moment's pages."""
    firm = site.firm
    gas = site.number("gas")
    return Frame(
        firm=firm.name,
        phone=phone_link(firm, firm.phone.number),
        gas=phone_link(firm, gas),
        gas_name=site.region.numbers["gas"].name,
        hours=opening(firm, site.now()),
        language=site.region.language,
        demo=firm.demo,
        base=base,
        stylesheet=stylesheet().address,
    )


def phone_link(firm: Firm, number: str) -> PhoneLink:
    """A number with the address that dials it."""
    return PhoneLink(number, firm.tel(number))


def opening(firm: Firm, now: datetime) -> str:
    """Whether somebody answers now, in the firm's own time, or when next."""
    if firm.is_open(now):
        return "Open now"
    opens = firm.opens_next(now)
    if opens is None:
        return ""
    local = opens.astimezone(firm.clock)
    today = now.astimezone(firm.clock).date()
    match (local.date() - today).days:
        case 0:
            day = "today"
        case 1:
            day = "tomorrow"
        case _:
            day = f"on {local:%A}"
    return f"Closed now. Opens {day} at {local.hour}:{local:%M}"

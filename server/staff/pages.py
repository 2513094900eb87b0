"""What the pages before and behind the staff's door show."""

from dataclasses import dataclass
from typing import ClassVar, Final

from kb.staff import Role
from server.site import Site
from server.staff.door import Visit
from server.web.pages import Page
from server.web.static import asset, stylesheet

ROOMS: Final[tuple[tuple[Role, str, str], ...]] = (
    (Role.DESK, "Desk", "/desk"),
    (Role.ENGINEER, "Engineer", "/engineer"),
    (Role.OFFICE, "Office", "/office"),
)
"""Every room, its name and its first page, in the order of a call: desk, engineer, office."""


@dataclass(frozen=True, slots=True)
class Room:
    """A room of the house: its name and its first page."""

    name: str
    address: str


@dataclass(frozen=True, slots=True)
class StaffFrame:
    """What stands around every page of the staff: the firm, who signed in, the rooms that are open to them."""

    firm: str
    language: str
    demo: bool
    stylesheets: tuple[str, ...]
    who: str
    rooms: tuple[Room, ...]
    csrf: str


@dataclass(frozen=True, slots=True)
class SignInPage(Page):
    """Name, password and, where it is asked for, the code."""

    template: ClassVar[str] = "sign_in.html.j2"
    frame: StaffFrame
    name: str
    to: str
    alert: str


@dataclass(frozen=True, slots=True)
class WelcomePage(Page):
    """Where to go from here."""

    template: ClassVar[str] = "welcome.html.j2"
    frame: StaffFrame


def staff_frame(site: Site, visit: Visit | None = None) -> StaffFrame:
    """The frame of a page of the staff; with a visit, of somebody who signed in."""
    return StaffFrame(
        firm=site.firm.name,
        language=site.region.language,
        demo=site.firm.demo,
        stylesheets=(stylesheet().address, asset("staff.css").address),
        who=visit.who.name if visit else "",
        rooms=rooms_for(visit) if visit else (),
        csrf=visit.csrf if visit else "",
    )


def rooms_for(visit: Visit) -> tuple[Room, ...]:
    """The rooms whose door an account opens."""
    return tuple(Room(name, address) for role, name, address in ROOMS if visit.who.may(role))

"""What do the firm's own people see when something is refused or fails: the rooms' line, and the way on."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar, Final

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from server.site import Site
from server.staff.door import Visit, csrf_of, token_of
from server.staff.pages import StaffFrame, staff_frame
from server.staff.signing_in import session_id
from server.store import StoreUnavailable
from server.web.errors import SAID, Said
from server.web.pages import Page, answer

ROOMS: Final = ("/desk", "/engineer", "/office", "/staff")
HERE: Final[Mapping[int, Said]] = {
    403: Said(
        "This is not open to you",
        "It belongs to another room, or the page is older than your sign-in. Load that page anew and try again.",
    ),
    404: Said("This page is not here", "Check the address, or go on from one of your rooms."),
    410: Said("This key is no longer in use", "The home has a new one. Find it by its address or by a name."),
    413: Said("That is too much at once", "Send less at a time, such as half of the file."),
    422: Said("We could not read that", "Go back and try again, or go on from one of your rooms."),
    500: Said(
        "Something went wrong on our side",
        "Try again in a minute. What was saved before is kept. If it stays so, tell whoever looks after the program.",
    ),
    503: Said(
        "What is kept cannot be reached now",
        "Try again in a minute, and keep open what you are writing. "
        "Somebody on the phone? Danger first: in doubt, give the number below.",
    ),
}
"""What an error says in the rooms of the staff, where it is not what a household is told."""


@dataclass(frozen=True, slots=True)
class StaffErrorPage(Page):
    """An error in a room: what happened, what to do, and the numbers that do not wait for it."""

    template: ClassVar[str] = "staff_error.html.j2"
    frame: StaffFrame
    title: str
    next_step: str
    gas_name: str
    gas: str
    gas_tel: str


def is_room(path: str) -> bool:
    """Whether an address is in one of the rooms of the staff, or at their door."""
    return any(path == room or path.startswith(f"{room}/") for room in ROOMS)


async def staff_error(site: Site, request: Request, status: int) -> Response:
    """The page of an error in the rooms; it never fails itself, whatever the store does."""
    visit = await run_in_threadpool(_visit, site, request)
    said = HERE.get(status) or SAID.get(status, HERE[500 if status >= 500 else 422])
    number = site.number("gas")
    return answer(
        StaffErrorPage(
            staff_frame(site, visit),
            said.title,
            said.next_step,
            site.region.numbers["gas"].name,
            number,
            site.firm.tel(number),
        ),
        status,
    )


def _visit(site: Site, request: Request) -> Visit | None:
    """Who asks, as far as it can be known while something is wrong."""
    token = token_of(request)
    try:
        who = site.store.staff.session(session_id(token), site.now()) if token else None
    except StoreUnavailable:
        return None
    return Visit(request, who, csrf_of(token)) if who else None

"""What all views of the office share: their addresses, the frame, and the record of a home."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from fastapi import APIRouter
from starlette.responses import Response

from kb.keys import tidy
from kb.register import Record
from kb.staff import Role
from server.site import Site
from server.staff import Door, Visit
from server.staff.pages import StaffFrame, staff_frame
from server.store import Revoked
from server.web.errors import Gone, NotFound
from server.web.static import asset

ROOM: Final = "/office"
LONGEST_LIST: Final = 20_000_000
"""The most bytes of a table of homes that is sent up: a hundred thousand homes with everything in them do not fit."""


@dataclass(frozen=True, slots=True)
class Room:
    """One firm's office."""

    site: Site

    @property
    def today(self) -> date:
        """The day on the firm's wall."""
        return self.site.now().astimezone(self.site.firm.clock).date()

    def frame(self, visit: Visit) -> StaffFrame:
        """The frame of a page of the office."""
        around = staff_frame(self.site, visit)
        return replace(around, stylesheets=(*around.stylesheets, asset("office.css").address))

    def key(self, visit: Visit) -> str:
        """The key in the address; raises NotFound, or Gone for one that was withdrawn."""
        key = visit.request.path_params["key"]
        if tidy(key) != key:
            raise NotFound
        if isinstance(self.site.store.home(key), Revoked):
            raise Gone
        return str(key)

    def record(self, visit: Visit) -> Record:
        """The record of the home in the address, which leaves a trace; raises NotFound or Gone."""
        record = self.site.store.register.read(self.key(visit), visit.who.name)
        if record is None:
            raise NotFound
        return record


@dataclass(frozen=True, slots=True)
class Ways:
    """Puts views under their addresses, for the office alone unless said otherwise."""

    router: APIRouter
    door: Door

    def shows(self, path: str, view: Callable[[Visit], Response], role: Role | None = Role.OFFICE) -> None:
        """A page."""
        self.router.add_api_route(path, self.door.reading(role, view), methods=["GET"], response_model=None)

    def does(
        self,
        path: str,
        view: Callable[[Visit], Response],
        role: Role | None = Role.OFFICE,
        longest: int | None = None,
    ) -> None:
        """What a form does."""
        endpoint = self.door.changing(role, view, longest) if longest else self.door.changing(role, view)
        self.router.add_api_route(path, endpoint, methods=["POST"], response_model=None)


def home_address(key: str, *rest: str) -> str:
    """The address of a home's page in the office, or of something behind it."""
    return "/".join((ROOM, "homes", key, *rest))


def title_of(record: Record) -> str:
    """What a home is called on a page: its street, or its appliance where no address is known."""
    lines = record.address.lines if record.address else ()
    return ", ".join(lines) or record.appliances[0].plate

"""Addresses of a home's card: each size as it is printed, and its PDF."""

from fastapi import APIRouter
from starlette.responses import Response

from kb.home import Home
from kb.keys import tidy
from kb.staff import Role
from server.engineer.book import ROOM
from server.preview import Around, Way, card_response
from server.site import Site
from server.staff import Door, Visit
from server.staff.pages import staff_frame
from server.store import Revoked
from server.web.errors import Gone, NotFound


def routes(site: Site) -> APIRouter:
    """A home's card: its page, its pictures, its PDF."""
    router = APIRouter()
    show = Door(site).reading(Role.ENGINEER, _Cards(site).show)
    for path in (card_address("{key}"), f"{card_address('{key}')}/{{what}}"):
        router.add_api_route(path, show, methods=["GET"], response_model=None)
    return router


def card_address(key: str) -> str:
    """Where the card of a home is shown in this room."""
    return f"{ROOM}/homes/{key}/card"


class _Cards:
    def __init__(self, site: Site) -> None:
        self.site = site

    def show(self, visit: Visit) -> Response:
        """The card that the address names; A6 where it names no size."""
        home = self._home(visit.request.path_params["key"])
        around = Around(
            staff_frame(self.site, visit),
            f"{home.appliance}, key {home.key}",
            card_address(home.key),
            Way("Engineer", ROOM),
        )
        return card_response(self.site, home, visit.request.path_params.get("what", "a6"), lambda: around)

    def _home(self, key: str) -> Home:
        home = self.site.store.home(key) if tidy(key) == key else None
        if isinstance(home, Revoked):
            raise Gone
        if home is None:
            raise NotFound
        return home

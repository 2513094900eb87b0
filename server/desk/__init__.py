"""The desk's room: a call from the first ring to the booking, led from the keyboard."""

from functools import partial

from fastapi import APIRouter

from kb.staff import Role
from server.desk import showing
from server.desk.acting import Acting
from server.desk.book import ROOM
from server.desk.closing import Closing
from server.desk.keeping import Keeper
from server.desk.requesting import take
from server.desk.scripting import Scripting
from server.diary import routes as diary
from server.site import Site
from server.staff import Door
from server.staff.door import View

__all__ = ["routes"]


def routes(site: Site) -> APIRouter:
    """Every address of the room."""
    router = APIRouter(include_in_schema=False)
    # A call is named by anything behind the room's address, so what has a name of its own comes first.
    router.include_router(diary.routes(site, ROOM, Role.DESK, "All calls"))
    router.include_router(showing.routes(site))
    door, keeper = Door(site), Keeper(site)
    acting = Acting(keeper)
    verbs: dict[str, View] = {"": acting.begin, "/asked/{asked}": partial(take, site)}
    for part in (acting, Scripting(keeper), Closing(keeper)):
        verbs |= {f"/{{call}}/{verb}": view for verb, view in part.verbs().items()}
    for path, view in verbs.items():
        router.add_api_route(ROOM + path, door.changing(Role.DESK, view), methods=["POST"], response_model=None)
    return router

"""Who asked to be called, and how does the desk ring them with nothing asked twice?"""

from collections.abc import Iterator
from typing import Final

from starlette.responses import RedirectResponse, Response

from kb.callback import REACH_WORDS
from kb.days import clock
from kb.desk.events import Did, Event
from kb.desk.words import PACE_WORDS
from kb.numbers import shown
from server.desk.book import ROOM
from server.desk.parts import Asking
from server.site import Site
from server.staff import Visit
from server.store.requests import Request
from server.web.errors import NotFound

_CALL: Final = "asked-"


def waiting(site: Site, visit: Visit) -> tuple[Asking, ...]:
    """Every household that waits for a call and that no colleague has taken up, the most pressing first."""
    requests = site.store.requests.waiting(visit.who.name)
    return tuple(_asking(site, each) for each in requests if each.taken is None)


def _asking(site: Site, request: Request) -> Asking:
    asked, tried = request.asked, request.asked.tried or {}
    there = request.at.astimezone(site.firm.clock)
    return Asking(
        address=f"{ROOM}/asked/{request.id}",
        name=asked.name or shown(asked.phone, site.firm.region),
        about=str(tried.get("about", "")) or "No word of what was tried",
        pace=PACE_WORDS[asked.pace],
        reach=REACH_WORDS[asked.reach],
        since=f"{there:%A} {clock(there)}",
    )


def take(site: Site, visit: Visit) -> Response:
    """Take a request up: a call with the caller, the home and the way they went, which still begins with danger."""
    number = visit.request.path_params["asked"]
    request = site.store.requests.read(int(number), visit.who.name) if number.isdigit() else None
    if request is None:
        raise NotFound
    if not site.store.requests.take(request.id, visit.who.name, site.now()):
        return RedirectResponse(ROOM, 303)
    call = f"{_CALL}{request.id}"
    site.store.calls.begin(call, visit.who.name, site.now())
    site.store.calls.add(call, *_events(site, visit, request))
    return RedirectResponse(f"{ROOM}/{call}", 303)


def _events(site: Site, visit: Visit, request: Request) -> Iterator[Event]:
    """What the household said already; taken up twice, it is still kept once."""
    tried = request.asked.tried or {}
    said = [(Did.CALLER, {"phone": shown(request.asked.phone, site.firm.region), "name": request.asked.name})]
    if tried.get("home"):
        said.append((Did.HOME, {"key": str(tried["home"])}))
    if tried.get("article") in site.library.articles:
        said.append((Did.BEGAN, {"article": tried["article"], "trail": str(tried.get("trail", "")), "how": "link"}))
    for did, fields in said:
        yield Event(f"{_CALL}{request.id}-{did}", site.now(), visit.who.name, did, fields)


def finish(site: Site, visit: Visit, call: str) -> None:
    """Note that the household was called, when its call is closed."""
    if call.startswith(_CALL):
        site.store.requests.finish(int(call.removeprefix(_CALL)), visit.who.name, site.now())

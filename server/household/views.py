"""Addresses to pages: each view reads what was asked, asks the domain, and sends a page."""

from collections.abc import Awaitable, Callable
from functools import lru_cache
from typing import Final

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from kb.home import Home
from kb.keys import tidy
from server.household import calling
from server.household.compose import Composer
from server.household.finding import FrontDoor
from server.site import Site
from server.telling.office import Office
from server.web.asked import home_of, start_of
from server.web.frame import opening
from server.web.pages import PRIVATE, PUBLIC, SECURITY, answer, fresh

KEPT_PAGES: Final = 4096
LONGEST_WORDS: Final = 500


def routes(site: Site, office: Office) -> APIRouter:
    """Every address of the household's room, public and behind a home's key; the office hears of whom to call."""
    router = APIRouter(include_in_schema=False)
    room = _Room(site)

    def add(path: str, view: Callable[[Request], Awaitable[Response]]) -> None:
        router.add_api_route(path, view, methods=["GET", "HEAD"], response_model=None)

    # The pages asked for most come first, because addresses are tried in order.
    for base in ("", "/h/{key}"):
        add(base + "/help/{article}/{trail}", room.walk)
        add(base + "/help/{article}", room.walk)
        add(base + "/find", room.find)
        add(base + "/danger", room.danger)
    add("/", room.start)
    add("/firm.vcf", room.firm)
    add("/h/{key}", room.start)
    add("/h", room.key)
    calling.add_routes(router, site, office)
    return router


class _Room:
    def __init__(self, site: Site) -> None:
        self.site = site
        self.composer = Composer(site)
        self.front_door = FrontDoor(site)
        # A page is a pure function of these four, so its bytes are kept and sent again.
        self.kept = lru_cache(KEPT_PAGES)(self._walk_page)
        self.opening = lru_cache(1)(lambda _minute: opening(site.firm, site.now()))

    async def start(self, request: Request) -> Response:
        home = home_of(self.site, request)
        return fresh(request, answer(self.front_door.start(home), cache_control=_caching(home)))

    async def firm(self, request: Request) -> Response:
        """The firm for the contacts of a phone (RFC 6350)."""
        from kb.calendar import address_card

        card = address_card(self.site.firm, self.site.number("gas"))
        headers = {**SECURITY, "cache-control": PUBLIC, "content-disposition": 'attachment; filename="firm.vcf"'}
        return Response(card, headers=headers, media_type="text/vcard; charset=utf-8")

    async def find(self, request: Request) -> Response:
        home = home_of(self.site, request)
        words = request.query_params.get("words", "")[:LONGEST_WORDS]
        code = request.query_params.get("code", "")[:LONGEST_WORDS]
        return answer(self.front_door.find(words, code, home), cache_control=_caching(home))

    async def key(self, request: Request) -> Response:
        typed = request.query_params.get("key")
        if typed is None:
            return answer(self.front_door.key("", wrong=False))
        key = tidy(typed[:LONGEST_WORDS])
        if key is None:
            return answer(self.front_door.key(typed[:40], wrong=True), 422)
        return RedirectResponse(f"/h/{key}", 303)

    async def danger(self, request: Request) -> Response:
        danger = self.site.library.danger
        return self._send_walk(request, danger.id if danger else "")

    async def walk(self, request: Request) -> Response:
        return self._send_walk(request, request.path_params["article"])

    def _send_walk(self, request: Request, article: str) -> Response:
        home = home_of(self.site, request)
        trail = request.path_params.get("trail", "")
        if b"reading=" in request.scope["query_string"]:
            return self._send_reading(article, trail, request.query_params.get("reading", "")[:20], home)
        minute = int(self.site.now().timestamp() // 60)
        return fresh(request, self.kept(article, trail, home, self.opening(minute)))

    def _walk_page(self, article: str, trail: str, home: Home | None, _opening: str) -> Response:
        page, status = self.composer.walk(start_of(self.site, article), trail, home)
        return answer(page, status, _caching(home) if status == 200 else PRIVATE)

    def _send_reading(self, article: str, trail: str, typed: str, home: Home | None) -> Response:
        onward = self.composer.read(start_of(self.site, article), trail, typed, home)
        return RedirectResponse(onward, 303) if isinstance(onward, str) else answer(onward, 422)


def _caching(home: Home | None) -> str:
    return PRIVATE if home else PUBLIC

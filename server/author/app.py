"""Addresses of the author's desk to pages."""

import asyncio
import re
import time
from base64 import b64encode
from hashlib import sha256
from typing import Final, TypeVar

from fastapi import FastAPI
from starlette.exceptions import HTTPException
from starlette.middleware.trustedhost import TrustedHostMiddleware
from starlette.requests import Request
from starlette.responses import JSONResponse, RedirectResponse, Response

from kb import rules
from kb.article import Audience
from server.author import compose, static
from server.author.pages import LostPage, RulePage
from server.author.shelf import Shelf
from server.web.pages import SECURITY, Page, answer
from server.web.static import routes as shared_static

Found = TypeVar("Found")

HERE: Final = "127.0.0.1"
"""The only address the desk is served on: it shows files that are not finished to whoever sits here."""

_WAIT: Final = 2.0
_LOOK: Final = 0.1
_POLICY: Final = SECURITY["content-security-policy"] + "; script-src 'self'; connect-src 'self'"


def create_desk(shelf: Shelf) -> FastAPI:
    """The application for one author's folders."""
    app = FastAPI(title="Tundish author's desk", openapi_url=None, docs_url=None, redoc_url=None)
    # Another site's name that leads to this machine must not open the desk.
    app.add_middleware(TrustedHostMiddleware, allowed_hosts=[HERE, "localhost"])
    room = _Room(shelf)
    for path, view in (
        ("/", room.start),
        ("/articles/{id}", room.article),
        ("/articles/{id}/{part}.svg", room.picture),
        ("/ranges/{id}", room.family),
        ("/rules/{name}", room.rule),
        ("/help/{id}", room.linked),
        ("/changes", room.changes),
        (static.stylesheet().address, room.asset),
        (static.script().address, room.asset),
    ):
        app.add_api_route(path, view, methods=["GET"], response_model=None)
    app.include_router(shared_static())
    app.add_exception_handler(HTTPException, room.lost)
    app.add_exception_handler(Exception, room.failed)
    return app


class _Room:
    def __init__(self, shelf: Shelf) -> None:
        self.shelf = shelf

    # Views that draw take a while: they are no coroutines, so that the others need not wait.
    def start(self, request: Request) -> Response:
        return _sent(compose.list_page(self.shelf.look, str(self.shelf.articles)))

    def article(self, request: Request) -> Response:
        return _sent(_there(compose.article_page(self.shelf.look, request.path_params["id"])))

    def family(self, request: Request) -> Response:
        return _sent(_there(compose.range_page(self.shelf.look, request.path_params["id"])))

    def picture(self, request: Request) -> Response:
        part = request.path_params["part"]
        if part not in set(Audience):
            raise HTTPException(404)
        svg = _there(compose.picture(self.shelf.look, request.path_params["id"], Audience(part)))
        return Response(svg, headers=_own_style_only(svg), media_type="image/svg+xml")

    def rule(self, request: Request) -> Response:
        name = request.path_params["name"]
        page = _there(rules.explain(name))
        return _sent(RulePage(compose.around(self.shelf.look), name, page))

    async def linked(self, request: Request) -> Response:
        """A link in an article's words, which are set here as they are for a household."""
        return RedirectResponse(f"/articles/{request.path_params['id']}", 303)

    async def changes(self, request: Request) -> Response:
        """The version of what is to be seen: at once if it is another than the page's, else after a while."""
        seen, until = request.query_params.get("since"), time.monotonic() + _WAIT
        while str(self.shelf.look.version) == seen and time.monotonic() < until:
            await asyncio.sleep(_LOOK)
        return JSONResponse({"version": self.shelf.look.version}, headers={**SECURITY, "cache-control": "no-store"})

    async def asset(self, request: Request) -> Response:
        each = next(each for each in (static.stylesheet(), static.script()) if each.address == request.url.path)
        return Response(each.body, headers={**SECURITY, "cache-control": "no-store"}, media_type=each.media_type)

    async def lost(self, request: Request, error: Exception) -> Response:
        status = error.status_code if isinstance(error, HTTPException) else 500
        around = compose.around(self.shelf.look)
        words = "Choose from the list. An article that was just begun is there as soon as its file is saved."
        return _sent(LostPage(around, "There is nothing here", words), status)

    async def failed(self, request: Request, error: Exception) -> Response:
        words = "The fault is ours. The terminal that runs the desk says more. Your files are as you saved them."
        return _sent(LostPage(compose.around(self.shelf.look), "The desk failed", words), 500)


def _there(found: Found | None) -> Found:
    if found is None:
        raise HTTPException(404)
    return found


def _sent(page: Page, status: int = 200) -> Response:
    response = answer(page, status)
    response.headers["content-security-policy"] = _POLICY
    return response


def _own_style_only(svg: str) -> dict[str, str]:
    """Headers that let a picture bring its letters, and nothing else."""
    style = re.search(r"<style>(.*?)</style>", svg, re.S)
    digest = b64encode(sha256(style[1].encode()).digest()).decode() if style else ""
    policy = f"default-src 'none'; style-src 'sha256-{digest}'; font-src data:; frame-ancestors 'none'"
    return {**SECURITY, "content-security-policy": policy, "cache-control": "no-store"}

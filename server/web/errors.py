"""Errors as pages: what happened and what to do next, always with the danger line and the firm's number."""

import logging
from collections.abc import Awaitable, Callable, Mapping
from dataclasses import dataclass
from typing import ClassVar, Final

from fastapi import FastAPI
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from server.site import Site
from server.store import StoreUnavailable
from server.web.frame import Frame, frame
from server.web.pages import SECURITY, Page, answer

log = logging.getLogger("tundish")


@dataclass(frozen=True, slots=True)
class Said:
    """What an error says: its title and the next step."""

    title: str
    next_step: str


SAID: Final[Mapping[int, Said]] = {
    403: Said("This page is not open to you", "Go back and try again, or sign in with another account."),
    404: Said("This page is not here", "Check the address, or the key on your card."),
    405: Said("This page cannot do that", "Go back and use the page's own buttons."),
    410: Said("This card is no longer in use", "A newer card may be by your boiler. If not, call us for a new one."),
    413: Said("That is too much at once", "Send less at a time."),
    422: Said("We could not read that", "Go back and try again, or go on from the start."),
    500: Said("Something went wrong on our side", "Try again in a minute, or call us. Nothing you told us was lost."),
    503: Said(
        "We cannot open your home's page now", "Try again in a minute. You can still use the general help below."
    ),
}


class NotFound(HTTPException):
    """There is no such page, article or home."""

    def __init__(self) -> None:
        super().__init__(404)


class Gone(HTTPException):
    """The home's key was withdrawn: its card is no longer in use."""

    def __init__(self) -> None:
        super().__init__(410)


@dataclass(frozen=True, slots=True)
class ErrorPage(Page):
    """An error, and the way on."""

    template: ClassVar[str] = "error.html.j2"
    frame: Frame
    title: str
    next_step: str


Elsewhere = Callable[[Site, Request, int], Awaitable[Response]]
"""What answers an error in a part of the site that has pages of its own."""


def add_errors(app: FastAPI, site: Site, is_room: Callable[[str], bool], in_rooms: Elsewhere) -> None:
    """Answer every error with a page of ours, with JSON under /api, and in the rooms of the staff as these do."""

    async def respond(request: Request, status: int) -> Response:
        if is_room(request.url.path):
            return await in_rooms(site, request, status)
        said = SAID.get(status, SAID[500] if status >= 500 else SAID[422])
        if request.url.path.startswith("/api/"):
            body = {
                "error": said.title,
                "next": said.next_step,
                "call": site.firm.phone.number,
                "gas": site.number("gas"),
            }
            return JSONResponse(body, status, {**SECURITY, "cache-control": "no-store"})
        return answer(ErrorPage(frame(site), said.title, said.next_step), status)

    async def known(request: Request, error: Exception) -> Response:
        return await respond(request, error.status_code if isinstance(error, HTTPException) else 422)

    async def unavailable(request: Request, error: Exception) -> Response:
        log.error("the store cannot be reached", exc_info=error)
        return await respond(request, 503)

    async def unknown(request: Request, error: Exception) -> Response:
        return await respond(request, 500)

    app.add_exception_handler(HTTPException, known)
    app.add_exception_handler(RequestValidationError, known)
    app.add_exception_handler(StoreUnavailable, unavailable)
    app.add_exception_handler(Exception, unknown)

"""Addresses of the staff's door: sign in, sign out, where to go from here."""

from typing import Final

from fastapi import APIRouter
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from server.site import Site
from server.staff.door import SIGN_IN, Door, Visit, cookie_name, token_of
from server.staff.pages import SignInPage, WelcomePage, staff_frame
from server.staff.signing_in import Entry, Refusal, session_id, sign_in
from server.web.forms import form_of, refuse_foreign
from server.web.pages import answer

WELCOME: Final = "/staff"
MOST_SECONDS: Final = 14 * 24 * 3600

SAID: Final = {
    Refusal.WRONG: "The name, the password or the code is not right. Please try again.",
    Refusal.CODE_WANTED: "This account needs its one-time code as well. Type all three.",
    Refusal.WAIT: "Too many tries. Please wait fifteen minutes, or ask whoever looks after the accounts.",
}
"""What somebody is told who was not let in."""


def routes(site: Site) -> APIRouter:
    """The pages before the rooms."""
    router = APIRouter(include_in_schema=False)
    door = Door(site)
    entrance = _Entrance(site)
    router.add_api_route(SIGN_IN, entrance.ask, methods=["GET"], response_model=None)
    router.add_api_route(SIGN_IN, entrance.let_in, methods=["POST"], response_model=None)
    router.add_api_route(
        "/staff/sign-out", door.changing(None, entrance.let_out), methods=["POST"], response_model=None
    )
    router.add_api_route(WELCOME, door.reading(None, entrance.welcome), methods=["GET"], response_model=None)
    return router


class _Entrance:
    def __init__(self, site: Site) -> None:
        self._site = site

    async def ask(self, request: Request) -> Response:
        return answer(self._page("", request.query_params.get("to", ""), ""))

    async def let_in(self, request: Request) -> Response:
        refuse_foreign(request)
        form = await form_of(request)
        name, to = form.get("name", "")[:200], form.get("to", "")
        address = request.client.host if request.client else ""
        entry = await run_in_threadpool(
            sign_in, self._site.store.staff, name, form.get("password", ""), form.get("code", ""), address,
            self._site.now(),
        )  # fmt: skip
        if isinstance(entry, Refusal):
            return answer(self._page(name, to, SAID[entry]), 429 if entry is Refusal.WAIT else 403)
        return _with_cookie(request, RedirectResponse(_inside(to), 303), entry)

    def let_out(self, visit: Visit) -> Response:
        self._site.store.staff.end_session(session_id(token_of(visit.request)))
        response = RedirectResponse(SIGN_IN, 303)
        response.delete_cookie(cookie_name(visit.request), secure=visit.request.url.scheme == "https", httponly=True)
        return response

    def welcome(self, visit: Visit) -> Response:
        around = staff_frame(self._site, visit)
        # Somebody with one room has nothing to choose.
        return RedirectResponse(around.rooms[0].address, 303) if len(around.rooms) == 1 else answer(WelcomePage(around))

    def _page(self, name: str, to: str, alert: str) -> SignInPage:
        return SignInPage(staff_frame(self._site), name, to if _inside(to) == to else "", alert)


def _with_cookie(request: Request, response: Response, entry: Entry) -> Response:
    response.set_cookie(
        cookie_name(request),
        entry.token,
        max_age=MOST_SECONDS,
        secure=request.url.scheme == "https",
        httponly=True,
        samesite="lax",
    )
    return response


def _inside(to: str) -> str:
    """A page of ours to go on with; whatever else was asked for is not followed."""
    ours = to.startswith("/") and not to.startswith(("//", "/\\"))
    return to if ours and to.isprintable() and to.isascii() else WELCOME

"""Who is asking, may they, and did they mean to?"""

import hmac
from collections.abc import Awaitable, Callable, Mapping
from dataclasses import dataclass, field
from typing import Final
from urllib.parse import quote

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from kb.staff import Account, Role
from server.site import Site
from server.staff.signing_in import session_id
from server.web.forms import LONGEST_FORM, NotMeant, form_of, refuse_foreign

SIGN_IN: Final = "/staff/sign-in"
NOTHING: Final[Mapping[str, str]] = {}


@dataclass(frozen=True, slots=True)
class Visit:
    """Somebody who signed in asks for something: the request, who it is, and what the form says."""

    request: Request
    who: Account
    csrf: str
    form: Mapping[str, str] = field(default_factory=dict)


View = Callable[[Visit], Response]
Endpoint = Callable[[Request], Awaitable[Response]]


class NotAllowed(HTTPException):
    """An account asks for what its roles do not allow."""

    def __init__(self) -> None:
        super().__init__(403)


class Door:
    """Stands before every page of the staff; a view behind it runs in a thread and may use the store freely."""

    def __init__(self, site: Site) -> None:
        """Guard the pages of one site."""
        self._site = site

    def reading(self, role: Role | None, view: View) -> Endpoint:
        """A page for a role, or with None for everybody who signed in; others are asked to sign in first."""

        async def endpoint(request: Request) -> Response:
            token = token_of(request)
            who = await run_in_threadpool(self._who, token)
            if who is None:
                return RedirectResponse(f"{SIGN_IN}?to={quote(request.url.path)}", 303)
            if not who.may(role):
                raise NotAllowed
            return await run_in_threadpool(view, Visit(request, who, csrf_of(token)))

        return endpoint

    def changing(self, role: Role | None, view: View, longest: int = LONGEST_FORM) -> Endpoint:
        """What a form does, for a role; it must come from a page of ours that this session was shown."""

        async def endpoint(request: Request) -> Response:
            refuse_foreign(request)
            token = token_of(request)
            who = await run_in_threadpool(self._who, token)
            if who is None:
                return RedirectResponse(SIGN_IN, 303)
            if not who.may(role):
                raise NotAllowed
            form = await form_of(request, longest)
            csrf = csrf_of(token)
            if not hmac.compare_digest(form.get("csrf", "").encode(), csrf.encode()):
                raise NotMeant
            return await run_in_threadpool(view, Visit(request, who, csrf, form))

        return endpoint

    def _who(self, token: str) -> Account | None:
        return self._site.store.staff.session(session_id(token), self._site.now()) if token else None


def cookie_name(request: Request) -> str:
    """The name of the session's cookie; behind TLS the browser itself holds it to this host alone."""
    return "__Host-tundish" if request.url.scheme == "https" else "tundish"


def token_of(request: Request) -> str:
    """What the browser holds of a session, or nothing."""
    return request.cookies.get(cookie_name(request), "")


def csrf_of(token: str) -> str:
    """What a form of this session carries, so that no page of another site can make one up."""
    return hmac.new(token.encode(), b"form", "sha256").hexdigest()

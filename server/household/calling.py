"""Addresses of asking us to call: the form, what it does, and what was received."""

from dataclasses import replace
from typing import Final
from urllib.parse import quote

from fastapi import APIRouter
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from kb.callback import WrongNumber, offers_call
from server.household.asking import (
    SEND_AGAIN,
    TOO_MANY,
    TRAP,
    Typed,
    call_page,
    empty,
    received_page,
    request_from,
    typed_in,
)
from server.household.compose import Composer, base_of
from server.household.ending import Arrival
from server.site import Site
from server.store.requests import Put
from server.telling.office import Office
from server.web.asked import home_of, start_of
from server.web.errors import NotFound
from server.web.forms import form_of, refuse_foreign
from server.web.pages import answer

LONGEST: Final = 8000
"""The most bytes the form can have."""


def add_routes(router: APIRouter, site: Site, office: Office) -> None:
    """The addresses, public and behind a home's key."""
    asking = _Asking(site, office)
    for base in ("", "/h/{key}"):
        form = base + "/help/{article}/{trail}/call-me"
        router.add_api_route(form, asking.show, methods=["GET", "HEAD"], response_model=None)
        router.add_api_route(form, asking.take, methods=["POST"], response_model=None)
        router.add_api_route(form + "/{sent}", asking.received, methods=["GET", "HEAD"], response_model=None)


class _Asking:
    def __init__(self, site: Site, office: Office) -> None:
        self.site = site
        self.office = office
        self.composer = Composer(site)

    def show(self, request: Request) -> Response:
        here = self._here(request)
        return answer(call_page(self.site, here, empty())) if isinstance(here, Arrival) else here

    async def take(self, request: Request) -> Response:
        refuse_foreign(request)
        typed = typed_in(await form_of(request, LONGEST))
        return await run_in_threadpool(self._take, request, typed)

    def _take(self, request: Request, typed: Typed) -> Response:
        here = self._here(request)
        if isinstance(here, Response):
            return here
        if not typed.form:
            return answer(call_page(self.site, here, typed, alert=SEND_AGAIN), 422)
        if typed.trap:
            return answer(call_page(self.site, here, typed, alert=TRAP), 422)
        asked = request_from(self.site, here, typed)
        if isinstance(asked, WrongNumber):
            return answer(call_page(self.site, here, typed, wrong_phone=str(asked)), 422)
        address = request.client.host if request.client else ""
        put = self.site.store.requests.put(asked, self.office.ways, address, self.site.now())
        if put is Put.TOO_MANY:
            said = TOO_MANY.format(number=self.site.firm.phone.number)
            return answer(call_page(self.site, here, replace(typed), alert=said), 429)
        self.office.call()
        return RedirectResponse(f"{here.address}/{here.standing.trail}/call-me/{asked.sent}", 303)

    def received(self, request: Request) -> Response:
        base = base_of(home_of(self.site, request))
        receipt = self.site.store.requests.receipt(request.path_params["sent"])
        if receipt is None:
            raise NotFound
        # The guidance may have changed since, so that the trail leads elsewhere; what was received stays so.
        back = f"{base}/help/{quote(request.path_params['article'])}/{quote(request.path_params['trail'])}"
        return answer(received_page(self.site, base, back, receipt))

    def _here(self, request: Request) -> Arrival | Response:
        """The end that the address leads to, or the way to the walk where it leads to none that offers a call."""
        home, article, trail = home_of(self.site, request), request.path_params["article"], request.path_params["trail"]
        here = self.composer.arrival(start_of(self.site, article), trail, home)
        if here is None or not offers_call(here.end):
            return RedirectResponse(f"{base_of(home)}/help/{article}/{trail}", 303)
        return here

"""Addresses of the end of a record: sign it, see it signed, add to it, print the card."""

from collections.abc import Mapping
from hashlib import sha256
from json import dumps
from secrets import token_urlsafe
from typing import Final

from fastapi import APIRouter
from starlette.responses import RedirectResponse, Response

from kb.card import Refused, pdf
from kb.handover.learnt import record_after
from kb.handover.meanwhile import SEEN
from kb.handover.ready import is_unsafe, readiness
from kb.handover.record import ENTRY_ID, LONGEST_TEXT, Addition, Entry, Signature
from kb.handover.said import WHY
from kb.handover.seal import of_entries
from kb.home import Home
from kb.register import Record as Registered
from kb.staff import Role
from server.cards import card_for
from server.engineer.book import ROOM, Book, Opened
from server.engineer.forms import keepable
from server.engineer.pages import RefusedPage
from server.engineer.signed import sign_page, signed_page
from server.site import Site
from server.staff import Door, Visit
from server.staff.pages import staff_frame
from server.store.handovers import Changed, NoSuchRecord, SignedAlready
from server.web.errors import NotFound
from server.web.pages import SECURITY, WITH_SCRIPT, answer

LONGEST_NAME: Final = 120
MOVED: Final = "Something was written since you opened this page, here or in the register. Look at it again, then sign."
NAMELESS: Final = "Type your name to sign."
NOT_READY: Final = "It cannot be signed yet. What is missing stands below."


def routes(site: Site) -> APIRouter:
    """Sign, signed, additions, the card."""
    router = APIRouter()
    door, room = Door(site), _Signing(site)
    one = ROOM + "/records/{record}"
    for path, method, endpoint in (
        (f"{one}/sign", "GET", door.reading(Role.ENGINEER, room.ask)),
        (f"{one}/sign", "POST", door.changing(Role.ENGINEER, room.sign)),
        (f"{one}/decide", "POST", door.changing(Role.ENGINEER, room.decide)),
        (f"{one}/signed", "GET", door.reading(Role.ENGINEER, room.show)),
        (f"{one}/additions", "POST", door.changing(Role.ENGINEER, room.add)),
        (f"{one}/card.pdf", "GET", door.reading(Role.ENGINEER, room.card)),
    ):
        router.add_api_route(path, endpoint, methods=[method], response_model=None)
    return router


class _Signing:
    def __init__(self, site: Site) -> None:
        self.site = site
        self.book = Book(site)

    def ask(self, visit: Visit) -> Response:
        """What is in the way, and the place for the name."""
        opened = self.book.find(visit.request)
        if opened.record.signature:
            return RedirectResponse(f"{opened.address}/signed", 303)
        return self._ask(visit, opened, "")

    def _ask(self, visit: Visit, opened: Opened, alert: str) -> Response:
        found = readiness(opened.state, opened.said)
        name = visit.form.get("name", visit.who.name)[:LONGEST_NAME]
        page = sign_page(staff_frame(self.site, visit), opened, found, name, shown(opened), alert)
        return answer(page, 422 if alert else 200, policy=WITH_SCRIPT)

    def sign(self, visit: Visit) -> Response:
        """Keep the answers to questions, then sign, unless something is in the way or has changed."""
        opened = self.book.find(visit.request)
        if opened.record.signature:
            return RedirectResponse(f"{opened.address}/signed", 303)
        same = visit.form.get("seen") == shown(opened)
        answered = self._with_answers(visit, opened)
        name = " ".join(keepable(visit.form.get("name", "")).split())[:LONGEST_NAME]
        alert = "" if readiness(answered.state, answered.said).may_be_signed else NOT_READY
        alert = alert or ("" if same else MOVED) or ("" if len(name) > 1 else NAMELESS)
        if alert:
            return self._ask(visit, answered, alert)
        return self._signed(visit, self._settled(visit, answered), name)

    def _with_answers(self, visit: Visit, opened: Opened) -> Opened:
        """The record with what was answered on this page written into it."""
        answers = {id: keepable(text) for id, text in visit.form.items() if id.startswith(WHY) and len(id) < 30}
        return self._written(visit, opened, {id: t for id, t in answers.items() if t != opened.state.texts.get(id, "")})

    def _settled(self, visit: Visit, opened: Opened) -> Opened:
        """The record with what follows from others written into it, so that what is signed stands on its own."""
        return self._written(visit, opened, opened.state.worked)

    def _written(self, visit: Visit, opened: Opened, texts: Mapping[str, str]) -> Opened:
        for place, (field, text) in enumerate(texts.items(), opened.record.clock + 1):
            entry = Entry(token_urlsafe(12), place, field, text, visit.who.name, self.site.now())
            self.site.store.handovers.save(opened.record.id, entry)
        return self.book.find(visit.request) if texts else opened

    def decide(self, visit: Visit) -> Response:
        """Take what the register says of a field by now, or let the record's own word stand beside it."""
        opened = self.book.find(visit.request)
        field = self.book.form.by_id.get(visit.form.get("field", ""))
        register = keepable(visit.form.get("register", ""))
        if field is not None and field.sets and opened.record.signature is None:
            taken = {field.id: register} if "take" in visit.form else {}
            self._written(visit, opened, {SEEN + field.id: register, **taken})
        return RedirectResponse(f"{opened.address}/sign", 303)

    def _signed(self, visit: Visit, opened: Opened, name: str) -> Response:
        record, state = opened.record, opened.state
        signature = Signature(name, visit.who.name, self.site.now())

        def learn(before: Registered | None) -> Registered:
            if self.book.apart(record, state, before):
                raise Changed
            return record_after(state, record.key, before)

        teaches = None if is_unsafe(state) else learn
        try:
            self.site.store.handovers.sign(record.id, signature, of_entries(record), teaches)
        except SignedAlready:
            pass
        except Changed:
            return self._ask(visit, self.book.find(visit.request), MOVED)
        return RedirectResponse(f"{opened.address}/signed", 303)

    def show(self, visit: Visit) -> Response:
        """A signed record."""
        opened = self._signed_one(visit)
        home = self.site.store.home(opened.record.key)
        has_page = isinstance(home, Home)
        page = signed_page(staff_frame(self.site, visit), opened, has_page, self.site.firm.clock)
        return answer(page, policy=WITH_SCRIPT)

    def add(self, visit: Visit) -> Response:
        """Add words to a signed record."""
        opened = self._signed_one(visit)
        words = keepable(visit.form.get("words", "")).strip()[:LONGEST_TEXT]
        id = visit.form.get("token", "")
        if words and ENTRY_ID.fullmatch(id):
            try:
                self.site.store.handovers.add(opened.record.id, Addition(id, words, visit.who.name, self.site.now()))
            except NoSuchRecord:
                raise NotFound from None
        return RedirectResponse(f"{opened.address}/signed#added", 303)

    def card(self, visit: Visit) -> Response:
        """The card of the record's home, to print; or why there is none."""
        opened = self._signed_one(visit)
        home = self.site.store.home(opened.record.key)
        if not isinstance(home, Home):
            raise NotFound
        made = card_for(self.site, home)
        if isinstance(made, Refused):
            reasons = tuple(map(str, made.reasons))
            return answer(RefusedPage(staff_frame(self.site, visit), reasons, f"{opened.address}/signed"), 422)
        headers = {**SECURITY, "cache-control": "no-store", "content-disposition": f'inline; filename="{home.key}.pdf"'}
        return Response(pdf(made), 200, headers, "application/pdf")

    def _signed_one(self, visit: Visit) -> Opened:
        opened = self.book.find(visit.request)
        if opened.record.signature is None:
            raise NotFound
        return opened


def shown(opened: Opened) -> str:
    """A short stand-in for everything a signer is shown but the answers that they write on the page itself."""
    plain = {id: text for id, text in opened.state.texts.items() if not id.startswith(WHY)}
    return sha256(dumps([sorted(plain.items()), opened.record.key]).encode()).hexdigest()[:20]

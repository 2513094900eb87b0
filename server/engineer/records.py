"""Addresses of a record being filled in: its page, a section sent as a form, one entry sent by the script."""

from secrets import token_urlsafe
from typing import Final

from fastapi import APIRouter
from starlette.responses import JSONResponse, RedirectResponse, Response

from kb import keys
from kb.handover.field import Section
from kb.handover.known import Opening, opening_of
from kb.handover.meanwhile import KNOWN, SEEN
from kb.handover.record import ENTRY_ID, Addition, Entry, Record
from kb.handover.said import WHY, Level
from kb.register import Record as Registered
from kb.staff import Role
from server.engineer.book import ROOM, Book, Opened
from server.engineer.forms import changed_entries, keepable
from server.engineer.showing import done, record_page, said_shown
from server.site import Site
from server.staff import Door, Visit
from server.staff.pages import staff_frame
from server.store.handovers import NoSuchRecord, SignedAlready
from server.web.errors import NotFound
from server.web.pages import SECURITY, WITH_SCRIPT, answer, environment

LEAP: Final = 10_000
"""How far ahead of a record's clock an entry may be: further than anybody writes without a signal."""


def routes(site: Site) -> APIRouter:
    """Begin a record, see it, fill it in."""
    router = APIRouter()
    door, room = Door(site), _Records(site)
    view, change = ("GET",), ("POST",)
    for path, methods, endpoint in (
        ("/records", change, door.changing(Role.ENGINEER, room.begin)),
        ("/records/{record}/entries", change, door.changing(Role.ENGINEER, room.keep)),
        ("/records/{record}", view, door.reading(Role.ENGINEER, room.show)),
        ("/records/{record}/{section}", view, door.reading(Role.ENGINEER, room.show)),
        ("/records/{record}/{section}", change, door.changing(Role.ENGINEER, room.save)),
    ):
        router.add_api_route(ROOM + path, endpoint, methods=list(methods), response_model=None)
    return router


class _Records:
    def __init__(self, site: Site) -> None:
        self.site = site
        self.book = Book(site)

    def begin(self, visit: Visit) -> Response:
        """Begin a record for the home of a key, with its appliance or another one, or with no key for a new home."""
        typed = visit.form.get("key", "").strip()
        home = self.site.store.register.things(keys.tidy(typed) or "") if typed else None
        if typed and home is None:
            return RedirectResponse(f"{ROOM}?unknown=1", 303)
        record = self._blank(home, visit.who.name, bool(visit.form.get("another")))
        self.site.store.handovers.begin(record)
        return RedirectResponse(f"{ROOM}/records/{record.id}", 303)

    def _blank(self, home: Registered | None, by: str, another: bool) -> Record:
        known = opening_of(self.book.form, home, self.book.today(), another) if home else Opening({}, {})
        first = [(KNOWN + field, field, text) for field, text in known.filled.items()]
        first += [(SEEN + field, SEEN + field, text) for field, text in known.beside.items()]
        now = self.site.now()
        entries = (Entry(id, number, field, text, by, now) for number, (id, field, text) in enumerate(first, 1))
        return Record(token_urlsafe(12), home.key if home else keys.make(), now, by, tuple(entries))

    def show(self, visit: Visit) -> Response:
        """A record with one section open; a signed one is shown as it was signed."""
        opened = self.book.find(visit.request)
        current = visit.request.path_params.get("section", self.book.form.sections[0].id)
        section = self._section(current)
        if opened.record.signature:
            return RedirectResponse(f"{opened.address}/signed", 303)
        return answer(record_page(staff_frame(self.site, visit), opened, section.id), policy=WITH_SCRIPT)

    def save(self, visit: Visit) -> Response:
        """Keep a section that was sent as a form, and go on unless something there wants to be seen."""
        opened = self.book.find(visit.request)
        section = self._section(visit.request.path_params["section"])
        entries = changed_entries(self.book, opened, section, visit, self.site.now())
        for entry in entries:
            self._keep(opened.record.id, entry)
        after = self.book.find(visit.request)
        here = f"{opened.address}/{section.id}"
        stays = entries and (_wants_eyes(after, section) or _asks_more(opened, after, section))
        return RedirectResponse(here if stays else self._onward(section, opened), 303)

    def keep(self, visit: Visit) -> Response:
        """Keep one entry; the answer says that it is kept and what is said of the record by now."""
        opened = self.book.find(visit.request)
        entry = self._entry(visit, opened.record)
        if entry is None:
            return JSONResponse({"refused": "This cannot be kept."}, 422, SECURITY)
        late = self._keep(opened.record.id, entry)
        after = self.book.find(visit.request)
        return JSONResponse({"kept": entry.id, "late": late, **_news(after)}, 200, _UNKEPT)

    def _keep(self, record: str, entry: Entry) -> bool:
        """Keep an entry in the record, or what came after the signing beside it; whether it came after."""
        try:
            self.site.store.handovers.save(record, entry)
        except SignedAlready:
            field = self.book.form.by_id.get(entry.field)
            words = f"Written before the signing, arrived after it. {field.words if field else 'Answer'}: {entry.text}"
            self.site.store.handovers.add(record, Addition(entry.id, words, entry.by, entry.at))
            return True
        except NoSuchRecord:
            raise NotFound from None
        return False

    def _entry(self, visit: Visit, record: Record) -> Entry | None:
        """The entry a script sent, or None for what no page of ours would send."""
        id, field, text = (visit.form.get(name, "") for name in ("id", "field", "text"))
        sequence = visit.form.get("sequence", "")
        known = field in self.book.form.by_id or (field.startswith(WHY) and field.isascii() and len(field) < 30)
        whole = sequence.isascii() and sequence.isdigit() and 0 < int(sequence[:17]) <= record.clock + LEAP
        if not (known and whole and ENTRY_ID.fullmatch(id)) or keepable(text) != text:
            return None
        return Entry(id, int(sequence), field, text, visit.who.name, self.site.now())

    def _section(self, id: str) -> Section:
        found = next((section for section in self.book.form.sections if section.id == id), None)
        if found is None:
            raise NotFound
        return found

    def _onward(self, section: Section, opened: Opened) -> str:
        ids = [each.id for each in self.book.form.sections]
        place = ids.index(section.id) + 1
        return f"{opened.address}/{ids[place] if place < len(ids) else 'sign'}"


_UNKEPT: Final = {**SECURITY, "cache-control": "no-store"}


def _wants_eyes(opened: Opened, section: Section) -> bool:
    """Whether a section has something that should be seen before going on."""
    form = opened.state.form
    unread = any((value := opened.state.values.get(field.id)) and value.problem for field in section.fields)
    return unread or any(each.level is not Level.FINE and each.section(form) == section.id for each in opened.said)


def _asks_more(before: Opened, after: Opened, section: Section) -> bool:
    """Whether what was chosen brought new fields into a section."""
    asked = {field.id for field in before.state.asked(section)}
    return any(field.id not in asked for field in after.state.asked(section))


def _news(opened: Opened) -> dict[str, object]:
    """What a page shows anew after an entry was kept."""
    state = opened.state
    macro = environment().get_template("said.html.j2").module.said  # type: ignore[attr-defined]
    return {
        "clock": opened.record.clock,
        "problems": {id: str(value.problem) for id, value in state.values.items() if value.problem},
        "worked": dict(state.worked),
        "typed": list(state.texts),
        "said": {section.id: str(macro(said_shown(opened, section.id))) for section in state.form.sections},
        "done": {section.id: done(state, section) for section in state.form.sections},
        "title": opened.title,
    }

"""A home's forms: shown, sent back with every mistake at its field, and kept; and a new home."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from starlette.responses import RedirectResponse, Response

from kb import keys
from kb.register import Built, Mistake, Record, build, written
from server.office.forms import Form, Values, filled, fingerprint, sent
from server.office.pages import FormPage
from server.office.room import ROOM, Room, Ways, home_address, title_of
from server.office.sections import new_home_form, sections
from server.staff import Visit
from server.web.errors import NotFound
from server.web.pages import answer

_ROLE: Final = "people[0].role"

CHANGED_MEANWHILE: Final = Mistake(
    "",
    "this part of the home as it was when you opened it",
    "that somebody changed it meanwhile",
    "Look at it in another window, then save yours again to keep yours.",
)


def add(ways: Ways, room: Room) -> None:
    """The forms of a home, and of a new one."""
    editing = _Editing(room)
    ways.shows(f"{ROOM}/new", editing.ask_new)
    ways.does(f"{ROOM}/new", editing.make_new)
    ways.shows(home_address("{key}", "{section}"), editing.ask)
    ways.does(home_address("{key}", "{section}"), editing.keep)


@dataclass(frozen=True, slots=True)
class _Editing:
    room: Room

    def ask(self, visit: Visit) -> Response:
        form = self._form(visit)
        record = self.room.record(visit)
        values = form.of(written(record, self.room.site.firm.region))
        return answer(form_page(self.room, visit, form, record, values))

    def keep(self, visit: Visit) -> Response:
        """Keep what was sent, unless something is wrong in it: then the same form comes back as it was filled in."""
        form, key = self._form(visit), self.room.key(visit)
        region, today = self.room.site.firm.region, self.room.today
        values = sent(form, visit.form)
        before: list[Record] = []

        def alter(record: Record) -> Built:
            before.append(record)
            built = build(values, record, region, today)
            if fingerprint(form.of(written(record, region))) != visit.form.get("seen"):
                return Built(built.record, (CHANGED_MEANWHILE, *built.mistakes))
            return built

        built = self.room.site.store.register.change(key, alter, visit.who.name)
        if built is None:
            raise NotFound
        if built.mistakes:
            page = form_page(self.room, visit, form, before[0], values, built.mistakes)
            return answer(page, 422)
        return RedirectResponse(f"{home_address(key)}#{form.name}", 303)

    def ask_new(self, visit: Visit) -> Response:
        return answer(self._new(visit, {}))

    def make_new(self, visit: Visit) -> Response:
        form = new_home_form(self.room.site)
        values = _without_nobody(sent(form, visit.form))
        built = build(values, Record(keys.make(), ()), self.room.site.firm.region, self.room.today)
        store = self.room.site.store
        mistakes = built.mistakes or store.lists.there(built.record.address)
        mistakes = mistakes or store.register.put(built.record, visit.who.name)
        if mistakes:
            return answer(self._new(visit, values, mistakes), 422)
        return RedirectResponse(home_address(built.record.key), 303)

    def _new(self, visit: Visit, values: Values, mistakes: Sequence[Mistake] = ()) -> FormPage:
        form = new_home_form(self.room.site)
        filled_in = filled(form, values, mistakes)
        return FormPage(
            self.room.frame(visit),
            form.title,
            "",
            form.intro,
            filled_in.mistakes,
            filled_in.groups,
            f"{ROOM}/new",
            "",
            ROOM,
        )

    def _form(self, visit: Visit) -> Form:
        form = sections(self.room.site).get(visit.request.path_params["section"])
        if form is None:
            raise NotFound
        return form


def _without_nobody(values: Values) -> Values:
    """What was sent, without the role of a person of whom nothing else was typed: a list always has one chosen."""
    somebody = any(words for path, words in values.items() if path.startswith("people") and path != _ROLE)
    return values if somebody else {path: words for path, words in values.items() if path != _ROLE}


def form_page(
    room: Room, visit: Visit, form: Form, record: Record, values: Values, mistakes: Sequence[Mistake] = ()
) -> FormPage:
    """The page of a form of a home, as it was filled in; saving goes by what the home was when it is shown."""
    filled_in = filled(form, values, mistakes)
    seen = fingerprint(form.of(written(record, room.site.firm.region)))
    here = home_address(record.key)
    return FormPage(
        room.frame(visit),
        form.title,
        title_of(record),
        form.intro,
        filled_in.mistakes,
        filled_in.groups,
        f"{here}/{form.name}",
        seen,
        f"{here}#{form.name}",
    )

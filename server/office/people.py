"""A home's people: their form, all that is held about one of them, and forgetting them."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from starlette.responses import RedirectResponse, Response

from kb.register import NEEDS, Built, Mistake, Person, Record, build, fields_of_person
from server.office.editing import CHANGED_MEANWHILE
from server.office.forms import Values, filled, fingerprint, sent
from server.office.pages import FormPage, Link, SurePage, ToldPage
from server.office.room import Room, Ways, home_address, title_of
from server.office.sections import person_form
from server.office.showing import back_to
from server.seen import farewell, sheet, text
from server.staff import Visit
from server.store.register import Seen
from server.store.register.erasing import ALSO_LEFT
from server.web.errors import NotFound
from server.web.pages import PRIVATE, SECURITY, answer

_NEW: Final = Person("")
_NAMELESS: Final = Mistake("people[0].name", "a name", "nothing", "Fill it in, or forget the person instead.")
_WRITTEN: Final = (
    "The name, the phones and the needs are erased for good, from the register and from what is searched.",
    "What the law has us keep stays, with the name that stands on it. It is listed here before you erase.",
)


def add(ways: Ways, room: Room) -> None:
    """The pages of a person."""
    people = _People(room)
    at = home_address("{key}", "people", "{person}")
    ways.shows(at, people.ask)
    ways.does(at, people.keep)
    ways.shows(f"{at}/held", people.held)
    ways.shows(f"{at}/held.txt", people.held_as_text)
    ways.shows(f"{at}/forget", people.ask_forget)
    ways.does(f"{at}/forget", people.forget)


@dataclass(frozen=True, slots=True)
class _People:
    room: Room

    def ask(self, visit: Visit) -> Response:
        record = self.room.record(visit)
        person = _found(record, visit)
        return answer(self._page(visit, record, person, _values(person, self.room.site.firm.region), ()))

    def keep(self, visit: Visit) -> Response:
        """Keep one person; the others of the home stay as they are."""
        key, region, today = self.room.key(visit), self.room.site.firm.region, self.room.today
        form = person_form("")
        typed = sent(form, visit.form)
        before: list[tuple[Record, Person]] = []

        def alter(record: Record) -> Built:
            person = _found(record, visit)
            before.append((record, person))
            alone = build(_without_dropped(typed, person), replace(record, people=()), region, today)
            written = replace(alone.record.people[0], id=person.id) if alone.record.people else None
            everybody = [written if each is person else each for each in (*record.people, *_extra(person))]
            wrong = alone.mistakes if written else (_NAMELESS,)
            if fingerprint(_values(person, region)) != visit.form.get("seen"):
                wrong = (CHANGED_MEANWHILE, *wrong)
            return Built(replace(record, people=tuple(each for each in everybody if each)), wrong)

        built = self.room.site.store.register.change(key, alter, visit.who.name)
        if built is None:
            raise NotFound
        if built.mistakes:
            return answer(self._page(visit, *before[0], typed, built.mistakes), 422)
        return RedirectResponse(f"{home_address(key)}#people", 303)

    def held(self, visit: Visit) -> Response:
        seen, person = self._seen(visit)
        here = home_address(seen.record.key)
        return answer(
            ToldPage(
                self.room.frame(visit),
                f"Everything held about {person.name}",
                "To be given to them when they ask. Make sure first that it is they who ask.",
                tuple((section.title, section.lines) for section in sheet(seen)),
                (
                    Link("Save it as a text file", f"{here}/people/{person.id}/held.txt"),
                    Link(f"Forget {person.name}", f"{here}/people/{person.id}/forget"),
                    back_to(seen.record),
                ),
            )
        )

    def held_as_text(self, visit: Visit) -> Response:
        seen, _ = self._seen(visit)
        held = f"{self.room.site.firm.name}\n\n{text(sheet(seen))}"
        headers = {
            **SECURITY,
            "cache-control": PRIVATE,
            "content-disposition": 'attachment; filename="held-about-you.txt"',
        }
        return Response(held, headers=headers, media_type="text/plain; charset=utf-8")

    def ask_forget(self, visit: Visit) -> Response:
        return answer(self._sure(visit, ""))

    def forget(self, visit: Visit) -> Response:
        if not visit.form.get("sure"):
            return answer(self._sure(visit, "Tick the box once you are sure who asks."), 422)
        record = self.room.record(visit)
        person = _there(record, visit)
        erased = self.room.site.store.register.erase(person.id or 0, visit.who.name, self.room.today)
        if erased is None:
            raise NotFound
        parts = tuple((section.title, section.lines) for section in farewell(erased))
        title = f"{person.name} is forgotten"
        return answer(ToldPage(self.room.frame(visit), title, title_of(record), parts, (back_to(record),)))

    def _seen(self, visit: Visit) -> tuple[Seen, Person]:
        number = _number(visit)
        seen = self.room.site.store.register.seen(self.room.key(visit), visit.who.name, number)
        if seen is None or number is None or not seen.record.people:
            raise NotFound
        return seen, seen.record.people[0]

    def _sure(self, visit: Visit, alert: str) -> SurePage:
        seen, person = self._seen(visit)
        here = home_address(seen.record.key)
        papers = next((part for part in sheet(seen) if part.title == "Papers we must keep"), None)
        stays = papers.lines if papers else ("There is no such paper for them.",)
        return SurePage(
            self.room.frame(visit),
            f"Forget {person.name}",
            title_of(seen.record),
            (("What happens", _WRITTEN), ("Kept because the law says so", stays), ("Left", ALSO_LEFT)),
            f"I made sure that {person.name} asks for this",
            alert,
            f"Forget {person.name}",
            f"{here}/people/{person.id}/forget",
            f"{here}#people",
        )

    def _page(self, visit: Visit, record: Record, person: Person, values: Values, wrong: Sequence[Mistake]) -> FormPage:
        form = person_form(person.name or "A new person")
        filled_in = filled(form, values, wrong)
        here = home_address(record.key)
        return FormPage(
            self.room.frame(visit),
            form.title,
            title_of(record),
            form.intro,
            filled_in.mistakes,
            filled_in.groups,
            f"{here}/people/{person.id or 'new'}",
            fingerprint(_values(person, self.room.site.firm.region)),
            f"{here}#people",
        )


def _number(visit: Visit) -> int | None:
    written = visit.request.path_params["person"]
    return int(written) if written.isascii() and written.isdigit() and len(written) < 10 else None


def _found(record: Record, visit: Visit) -> Person:
    """The person in the address, or a new one."""
    return _NEW if visit.request.path_params["person"] == "new" else _there(record, visit)


def _there(record: Record, visit: Visit) -> Person:
    number = _number(visit)
    person = next((each for each in record.people if number is not None and each.id == number), None)
    if person is None:
        raise NotFound
    return person


def _extra(person: Person) -> tuple[Person, ...]:
    return (person,) if person is _NEW else ()


def _values(person: Person, region: str) -> Values:
    """A person's fields as their form has them: each need at the place of its kind."""
    values = {f"people[0].{name}": words for name, words in fields_of_person(replace(person, needs=()), region)}
    kinds = list(NEEDS)
    for need in person.needs:
        at = f"people[0].needs[{kinds.index(need.kind)}]"
        values |= {f"{at}.kind": need.kind, f"{at}.consented": str(need.consented)}
        values |= {f"{at}.reviewed": str(need.reviewed)} if need.reviewed else {}
    return values


def _without_dropped(typed: Values, person: Person) -> Values:
    """What was typed, without the days of a need whose tick was taken away: then the need is gone."""
    had = {need.kind for need in person.needs}
    dropped = tuple(
        f"people[0].needs[{n}]."
        for n, kind in enumerate(NEEDS)
        if kind in had and not typed.get(f"people[0].needs[{n}].kind")
    )
    return {name: words for name, words in typed.items() if not name.startswith(dropped or ("\0",))}

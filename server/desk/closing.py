"""What the desk does at the end of a call: the people and the pace, a promise, a colleague, the closing."""

from datetime import timedelta
from typing import Final

from starlette.responses import RedirectResponse, Response

from kb.appointment import Unfit, said
from kb.article import Pace
from kb.desk.events import HOW_CLOSED, PEOPLE_FIELDS, Did
from kb.desk.reading import degrees
from kb.register import NEEDS
from kb.staff import Role
from kb.triage.pace import Refused, chosen
from server.desk.acting import Verbs
from server.desk.book import ROOM, Opened
from server.desk.ending import not_standing
from server.desk.keeping import Keeper, text, those
from server.desk.requesting import finish
from server.desk.showing import send
from server.diary.booking import chosen as picked
from server.staff import Visit

FOLLOW_AFTER: Final = timedelta(hours=48)
"""After so long a household whose fault was solved by phone is asked whether it still works."""


class Closing:
    """What is done at the end of a call."""

    def __init__(self, keeper: Keeper) -> None:
        """Act on the calls of one keeper."""
        self._keeper = keeper
        self._site = keeper.site
        self._shown = keeper.shown
        self._book = keeper.book

    def verbs(self) -> Verbs:
        """Everything that can be done here, by the last part of its address."""
        return {
            "people": self.people,
            "choose-pace": self.choose_pace,
            "hand": self.hand,
            "promise": self.promise,
            "book": self.book,
            "close": self.close,
            "follow": self.follow,
        }

    def people(self, visit: Visit) -> Response:
        """Who is there, how cold it is."""
        opened = self._book.find(visit.request)
        fields = those(visit, PEOPLE_FIELDS)
        fields["needs"] = " ".join(kind for kind in NEEDS if f"need-{kind}" in visit.form)
        for name in ("indoor", "outdoor"):
            if fields.get(name) and degrees(fields[name]) is None:
                page = self._shown.ender.pace(opened, visit, f"“{fields[name]}” is no temperature. Type it like 14.")
                return send(page, 422)
        self._keeper.keep(opened, visit, Did.PEOPLE, fields)
        return RedirectResponse(f"{opened.address}/pace", 303)

    def choose_pace(self, visit: Visit) -> Response:
        """Sooner freely; later for a reason, and never below the floor."""
        opened = self._book.find(visit.request)
        judged, why = opened.reading.judged, text(visit, "why")
        to = next((pace for pace in Pace if pace == visit.form.get("to")), judged.pace)
        taken = chosen(judged, to, why)
        if isinstance(taken, Refused):
            return send(self._shown.ender.pace(opened, visit, taken.why), 422)
        said = {"to": to.value, "why": why, "judged": judged.pace.value, **self._keeper.danger(opened, why)}
        self._keeper.keep(opened, visit, Did.PACE, said)
        return RedirectResponse(f"{opened.address}/pace", 303)

    def hand(self, visit: Visit) -> Response:
        """The call goes to a colleague of the desk."""
        opened = self._book.find(visit.request)
        to = visit.form.get("to", "")
        accounts = self._site.store.staff.accounts()
        if not any(each.name == to and each.may(Role.DESK) for each in accounts):
            return send(self._shown.ender.finish(opened, visit, "Choose a colleague of the desk."), 422)
        self._keeper.keep(opened, visit, Did.HANDED, {"to": to})
        return RedirectResponse(ROOM, 303)

    def promise(self, visit: Visit) -> Response:
        """What they were promised, and by when."""
        opened = self._book.find(visit.request)
        said = {"what": text(visit, "what"), "by": text(visit, "by")}
        if any(said.values()):
            self._keeper.keep(opened, visit, Did.PROMISED, said)
        return RedirectResponse(f"{opened.address}/finish", 303)

    def book(self, visit: Visit) -> Response:
        """Somebody comes then; later than the pace allows only for a reason."""
        opened = self._book.find(visit.request)
        why = text(visit, "why")
        agreed = picked(self._site, opened.reading.pace, opened.kept.began, visit.form, why, visit.who.name)
        if isinstance(agreed, Unfit):
            return send(self._shown.ender.when(opened, visit, str(agreed)), 422)
        self._keeper.keep(opened, visit, Did.BOOKED, {**said(agreed), **self._keeper.danger(opened, why)})
        return RedirectResponse(f"{opened.address}/finish", 303)

    def close(self, visit: Visit) -> Response:
        """The call is over."""
        opened = self._book.find(visit.request)
        how = visit.form.get("how", "")
        why_not = self._why_not(opened, how)
        if why_not:
            return send(self._shown.ender.finish(opened, visit, why_not), 422)
        follow = {"follow": (self._site.now() + FOLLOW_AFTER).isoformat()} if how == "solved" else {}
        self._keeper.keep(opened, visit, Did.CLOSED, {"how": how, **follow})
        finish(self._site, visit, opened.kept.id)
        return RedirectResponse(f"{opened.address}/note", 303)

    def follow(self, visit: Visit) -> Response:
        """They were asked whether it still works."""
        opened = self._book.find(visit.request)
        works = "yes" if visit.form.get("works") == "yes" else "no"
        self._keeper.keep(opened, visit, Did.FOLLOWED, {"works": works})
        return RedirectResponse(ROOM, 303)

    def _why_not(self, opened: Opened, how: str) -> str:
        if how not in HOW_CLOSED:
            return "Choose how the call ends."
        agenda = opened.reading.agenda
        if how in ("solved", "booked") and agenda.end is None and not agenda.clear:
            return "First the danger questions."
        if how == "solved" and agenda.end is not None:
            return "Danger is not solved by phone."
        if how != "booked":
            return ""
        if opened.reading.pace is Pace.LEAVE:
            return "The emergency service goes first: close the call as handed to it. The visit you agreed stands."
        if opened.reading.call.visit is None:
            return "Agree first when somebody comes."
        return not_standing(self._site, opened)

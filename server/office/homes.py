"""A home's page, and a new key for a lost card."""

from dataclasses import dataclass
from typing import Final

from starlette.responses import RedirectResponse, Response

from server.office.pages import SurePage
from server.office.room import Room, Ways, home_address, title_of
from server.office.showing import home_page
from server.staff import Visit
from server.web.errors import NotFound
from server.web.pages import answer

NEW_KEY: Final = (
    "The home has a new key. The old card opens nothing any more, and says to ring us. Print the new card now."
)

_WHY: Final = (
    "Whoever has the old card, or a picture of it, can open the home's page: the appliance and where its valve and "
    "tap are, nothing about people.",
    "From now on the old key opens nothing. It answers that a newer card is in use, with our number.",
    "The home gets a new key, and needs a new card. What is known of it stays as it is.",
)


def add(ways: Ways, room: Room) -> None:
    """The pages of a home itself."""
    homes = _Homes(room)
    ways.shows(home_address("{key}"), homes.show)
    ways.shows(home_address("{key}", "lost"), homes.ask_lost)
    ways.does(home_address("{key}", "lost"), homes.lost)


@dataclass(frozen=True, slots=True)
class _Homes:
    room: Room

    def show(self, visit: Visit) -> Response:
        notice = NEW_KEY if visit.request.query_params.get("now") == "new-key" else ""
        record = self.room.record(visit)
        printed = self.room.site.store.lists.printed_of(record.key)
        return answer(home_page(self.room, visit, record, printed, notice))

    def ask_lost(self, visit: Visit) -> Response:
        return answer(self._sure(visit, ""))

    def lost(self, visit: Visit) -> Response:
        if not visit.form.get("sure"):
            return answer(self._sure(visit, "Tick the box if the card is lost."), 422)
        new = self.room.site.store.register.replace_key(self.room.key(visit), visit.who.name, self.room.today)
        if new is None:
            raise NotFound
        return RedirectResponse(f"{home_address(new)}?now=new-key", 303)

    def _sure(self, visit: Visit, alert: str) -> SurePage:
        record = self.room.record(visit)
        here = home_address(record.key)
        return SurePage(
            self.room.frame(visit),
            "The card is lost",
            title_of(record),
            (("What happens", _WHY),),
            "The card is lost, or somebody else may have it",
            alert,
            "Make a new key",
            f"{here}/lost",
            here,
        )

"""Who looked at a home and who changed it, and what one of our own people looked at."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Final
from urllib.parse import urlencode
from zoneinfo import ZoneInfo

from starlette.responses import Response

from kb.days import full_day
from server.office.firm_pages import LookedPage, LookedRow
from server.office.pages import Link, TablePage
from server.office.room import ROOM, Room, Ways, home_address
from server.office.showing import back_to
from server.staff import Visit
from server.store.register import Did, Entry, Look
from server.web.pages import answer

HERE: Final = f"{ROOM}/looked"
AT_ONCE: Final = 500
"""How many traces are gone through for a page."""

LONGEST: Final = 120
"""The longest name that is looked for."""

DID: Final = {
    Did.FOUND: "saw it in a search",
    Did.READ: "looked",
    Did.CHANGED: "changed",
    Did.NEW_KEY: "gave a new key",
    Did.PRINTED: "printed",
    Did.KEPT: "noted a paper",
    Did.SHOWN: "put together for somebody who asked",
    Did.ERASED: "erased somebody",
}
"""What somebody did, in words."""

_PEOPLE: Final = {"people.name", "people.role", "people.phones", "people.needs"}


def add(ways: Ways, room: Room) -> None:
    """The pages of who looked."""
    trails = _Trails(room)
    ways.shows(home_address("{key}", "trail"), trails.of_home)
    ways.shows(HERE, trails.looked)


@dataclass(frozen=True, slots=True)
class _Trails:
    room: Room

    def of_home(self, visit: Visit) -> Response:
        record = self.room.record(visit)
        trail = self.room.site.store.register.trail(record.key)[::-1]
        return answer(
            TablePage(
                self.room.frame(visit),
                "Who looked and who changed",
                "Which fields, never what stood in them. The newest first; what one of us did again on the same day "
                "is one line.",
                ("When", "Who", "Did", "Fields"),
                tuple(_of_home(trail, self.room.site.firm.clock)),
                "Nobody yet.",
                (back_to(record),),
            )
        )

    def looked(self, visit: Visit) -> Response:
        """What one account looked at and changed, or every account, the newest first."""
        query = visit.request.query_params
        who, before = query.get("who", "")[:LONGEST], _number(query.get("before", ""))
        found = self.room.site.store.register.looks(who, AT_ONCE, before)
        back = urlencode({"who": who, "before": found[-1].number if found else 0})
        further = Link("Further back →", f"{HERE}?{back}") if len(found) == AT_ONCE else None
        return answer(
            LookedPage(
                self.room.frame(visit),
                who,
                tuple(sorted({account.name for account in self.room.site.store.staff.accounts()} | {who} - {""})),
                tuple(_rows(found, self.room.site.firm.clock)),
                further,
            )
        )


def _of_home(trail: Sequence[Entry], clock: ZoneInfo) -> Iterator[tuple[str, ...]]:
    for _, alike in groupby(trail, lambda each: (each.by, each.did, each.fields, each.at.astimezone(clock).date())):
        same = tuple(alike)
        yield _when(same, clock), same[0].by, _did(same), in_words(same[0].fields)


def _rows(found: Sequence[Look], clock: ZoneInfo) -> Iterator[LookedRow]:
    for _, alike in groupby(found, lambda each: (each.key, each.entry.by, each.entry.did, _day(each, clock))):
        looks = tuple(alike)
        same = tuple(each.entry for each in looks)
        fields = tuple(dict.fromkeys(field for entry in same for field in entry.fields))
        key = looks[0].key
        address = home_address(key) if key else ""
        yield LookedRow(_when(same, clock), same[0].by, _did(same), in_words(fields), looks[0].appliance, key, address)


def _day(look: Look, clock: ZoneInfo) -> object:
    return look.entry.at.astimezone(clock).date()


def _when(same: Sequence[Entry], clock: ZoneInfo) -> str:
    """The newest of them, and back to when."""
    last, first = same[0].at.astimezone(clock), same[-1].at.astimezone(clock)
    begin, end = f"{first:%H:%M}", f"{last:%H:%M}"
    return f"{full_day(last)}, {end if begin == end else f'{begin} to {end}'}"


def _did(same: Sequence[Entry]) -> str:
    return DID[same[0].did] if len(same) == 1 else f"{DID[same[0].did]} ({len(same)} times)"


def in_words(fields: Iterable[str]) -> str:
    """Names of fields as somebody reads them."""
    fields = tuple(fields)
    if set(fields) >= _PEOPLE:
        fields = (*(field for field in fields if field not in _PEOPLE), "people")
    return ", ".join(field.replace("people.", "people’s ").replace("_", " ").replace(".", " ") for field in fields)


def _number(written: str) -> int | None:
    return int(written) if written.isascii() and written.isdigit() and len(written) < 18 else None

"""How do the firm's colour and logo look on its cards, and does another colour stand out enough?

Nothing is changed here: the colour and the logo stand in the firm's own file, which is held to the same rules.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from random import Random
from typing import ClassVar, Final, cast
from urllib.parse import quote

from starlette.responses import Response

from kb import colour, keys
from kb.card import Card, Side, Size
from kb.card.palette import INK
from kb.card.sizes import FORMATS
from kb.facts import GaugeMarks, Known
from kb.home import Home
from server.cards import card_for
from server.office.room import ROOM, Room, Ways
from server.preview import Picture, SizeLink, Wrong, picture_file, pictures, size_links, wrongs
from server.site import Site
from server.staff import Visit
from server.staff.pages import StaffFrame
from server.web.errors import NotFound
from server.web.pages import Page, answer
from server.web.static import asset

LOOK: Final = f"{ROOM}/look"
_FILE: Final = re.compile(r"(\w+)-(front|back)\.png")
_LONGEST: Final = 20


@dataclass(frozen=True, slots=True)
class LookPage(Page):
    """The firm's look on a card of an example home, and what is found about a colour that somebody tries."""

    template: ClassVar[str] = "office_look.html.j2"
    frame: StaffFrame
    tried: str
    mistake: str
    found: tuple[str, ...]
    to_keep: str
    size: str
    sizes: tuple[SizeLink, ...]
    pictures: tuple[Picture, ...]
    wrong: tuple[Wrong, ...]


def add(ways: Ways, room: Room) -> None:
    """The page and its pictures."""
    look = _Look(room)
    ways.shows(LOOK, look.show)
    ways.shows(f"{LOOK}/{{what}}", look.show)


@dataclass(frozen=True, slots=True)
class _Look:
    room: Room

    def show(self, visit: Visit) -> Response:
        """The page in a size, or one of its pictures."""
        what = visit.request.path_params.get("what", "a6")
        tried = visit.request.query_params.get("colour", "").strip()[:_LONGEST]
        mistake = _mistake(tried)
        site = _coloured(self.room.site, "" if mistake else tried)
        picture = _FILE.fullmatch(what)
        if picture and picture[1] in FORMATS:
            card = card_for(site, example(site), cast("Size", picture[1]))
            if isinstance(card, Card):
                return picture_file(card, cast("Side", picture[2]))
        if what not in FORMATS:
            raise NotFound
        return answer(self._page(visit, site, cast("Size", what), tried, mistake), 422 if mistake else 200)

    def _page(self, visit: Visit, site: Site, size: Size, tried: str, mistake: str) -> LookPage:
        around = self.room.frame(visit)
        query = f"?colour={quote(tried)}" if tried and not mistake else ""
        card = card_for(site, example(site), size)
        return LookPage(
            frame=replace(around, stylesheets=(*around.stylesheets, asset("card.css").address)),
            tried=tried,
            mistake=mistake,
            found=tuple(_found(site)),
            to_keep=f'colour = "{tried}"' if query else "",
            size=size,
            sizes=size_links(LOOK, size, query),
            pictures=tuple(pictures(card, LOOK, query)) if isinstance(card, Card) else (),
            wrong=() if isinstance(card, Card) else wrongs(card),
        )


def example(site: Site) -> Home:
    """A home that nobody lives in, with an appliance of the firm's first range and the first fuel that it serves."""
    family = next(iter(site.ranges.values()), None)
    fuel = next((each for each in site.firm.serves if each in ("natural-gas", "lpg", "oil")), "natural-gas")
    return Home(
        # Chance has no part in it, so that every picture of it is of the same card.
        key=keys.make(Random(0)),
        range=family.id if family else "",
        appliance=family.name if family else "An example",
        known=Known({"fuel": fuel, "system": "sealed"}, GaugeMarks()),
        places={"gas-valve": "in the hall cupboard", "stop-tap": "under the kitchen sink", "switch": "by the boiler"},
    )


def _mistake(tried: str) -> str:
    """Why a colour cannot be the firm's, with its contrast and one that can be; nothing for one that can."""
    try:
        colour.readable(tried or INK)
    except ValueError as error:
        said = str(error)
        return f"{said[0].upper()}{said[1:]}."
    return ""


def _coloured(site: Site, tried: str) -> Site:
    return replace(site, firm=site.firm.model_copy(update={"colour": tried})) if tried else site


def _found(site: Site) -> Iterator[str]:
    own = site.firm.colour or INK
    ratio = colour.contrast(own, colour.PAPER)
    whose = f"Our name is printed in {own}" if site.firm.colour else f"We named no colour, so our name is in {own}"
    yield f"{whose}. On white paper it has a contrast of {ratio:.1f} to 1; words need {colour.TEXT:g} to 1."
    if site.logo is None:
        yield "We named no logo, so there is none on our cards."
    else:
        yield f"Our logo comes from {site.firm.logo}. It is printed in its own shape and colours."

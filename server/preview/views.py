"""A home's card in a size: its page, its pictures and its PDF, under addresses of whichever room shows it.

Behind a card's own address lie `a6`, the page of a size; `a6-front.png` and `a6-back.png`, its sides; `a6.pdf` and
`a6-sheet.pdf`.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Final, cast

from starlette.responses import Response

from kb.card import BOTH, Card, Refused, Side, Size, read_out
from kb.card.priority import left_out
from kb.card.sizes import FORMATS
from kb.home import Home
from server.cards import card_for, gathered_for
from server.preview.fields import name_of
from server.preview.files import pdf_file, picture_file
from server.preview.pages import CardPage, Picture, SizeLink, Way, Wrong
from server.site import Site
from server.staff.pages import StaffFrame
from server.web.errors import NotFound
from server.web.pages import answer
from server.web.static import asset

SIZES: Final = {"a6": "A6", "id1": "Bank card", "a5": "A5, large print"}
"""What each size of card is called."""

_SIDES: Final = {"front": "Front", "back": "Back"}
_PIXELS_A_MM: Final = {"a6": 3.8, "id1": 4.6, "a5": 3.2}
_FILE: Final = re.compile(r"(\w+?)(?:-(front|back)\.png|(-sheet)?\.pdf)")


def _nowhere(_field: str) -> str:
    return ""


@dataclass(frozen=True, slots=True)
class Around:
    """What a room puts around a card: its frame, what the home is called there, and where the card's pages lie.

    `mend` gives the address where a field of the home is changed, or nothing.
    """

    frame: StaffFrame
    about: str
    here: str
    back: Way
    mend: Callable[[str], str] = _nowhere


def card_response(site: Site, home: Home, what: str, around: Callable[[], Around]) -> Response:
    """The page, picture or PDF of a home's card that an address names; raises NotFound.

    Raises CardError if this machine cannot print at all.
    """
    if what in FORMATS:
        page = card_page(site, home, cast("Size", what), around())
        return answer(page, 422 if page.wrong else 200)
    named = _FILE.fullmatch(what)
    if named is None or named[1] not in FORMATS:
        raise NotFound
    size = cast("Size", named[1])
    if named[2] is None:
        file = pdf_file(site, home, size, sheet=named[3] is not None)
        return file or answer(card_page(site, home, size, around()), 422)
    card = card_for(site, home, size)
    if isinstance(card, Refused):
        raise NotFound
    return picture_file(card, cast("Side", named[2]))


def card_page(site: Site, home: Home, size: Size, around: Around) -> CardPage:
    """The page of a home's card in a size."""
    whole, card = gathered_for(site, home, size), card_for(site, home, size)
    made = isinstance(card, Card)
    return CardPage(
        frame=replace(around.frame, stylesheets=(*around.frame.stylesheets, asset("card.css").address)),
        about=around.about,
        size=SIZES[size],
        sizes=size_links(around.here, size),
        pictures=tuple(pictures(card, around.here)) if isinstance(card, Card) else (),
        pdf=f"{around.here}/{size}.pdf" if made else "",
        sheet=f"{around.here}/{size}-sheet.pdf" if made else "",
        left_out=left_out(whole, card) if isinstance(whole, Card) and isinstance(card, Card) else (),
        wrong=wrongs(card, around.mend) if isinstance(card, Refused) else (),
        back=around.back,
    )


def size_links(here: str, chosen: Size, query: str = "") -> tuple[SizeLink, ...]:
    """Every size to choose."""
    return tuple(SizeLink(words, f"{here}/{size}{query}", size == chosen) for size, words in SIZES.items())


def pictures(card: Card, here: str, query: str = "") -> Iterator[Picture]:
    """Both sides of a card."""
    width, height = (round(length * _PIXELS_A_MM[card.size]) for length in FORMATS[card.size].page)
    for side in BOTH:
        words = f"{_SIDES[side]} of the card. {read_out(card, side)}"
        yield Picture(_SIDES[side], f"{here}/{card.size}-{side}.png{query}", words, width, height)


def wrongs(refused: Refused, mend: Callable[[str], str] = _nowhere) -> tuple[Wrong, ...]:
    """Every reason why there is no card, its field in words."""
    return tuple(
        Wrong(name_of(each.field), each.field, each.found, each.remedy, mend(each.field)) for each in refused.reasons
    )

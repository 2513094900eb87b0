"""How are a card's pictures and its PDF sent?"""

from typing import Final

from starlette.responses import Response

from kb.card import Card, Side, Size, png, together
from kb.home import Home
from server.cards import gathered_for
from server.site import Site
from server.web.pages import PRIVATE, SECURITY

DPI: Final = {"a6": 200, "id1": 250, "a5": 170}
"""How finely each size is drawn: two dots to a pixel of the page, so that it stays sharp on a phone."""


def picture_file(card: Card, side: Side) -> Response:
    """One side of a card as a picture.

    Raises CardError.
    """
    return _file(png(card, side, DPI[card.size]), "image/png")


def pdf_file(site: Site, home: Home, size: Size, sheet: bool) -> Response | None:
    """The card as PDF, alone or on a sheet of A4; none where it may not be printed or does not fit.

    Raises CardError.
    """
    made = together([gathered_for(site, home, size)], sheet)
    name = f"card-{home.key}-{size}{'-sheet' if sheet else ''}.pdf"
    return _file(made.pdf, "application/pdf", f'attachment; filename="{name}"') if made.pdf else None


def _file(body: bytes, media_type: str, disposition: str = "inline") -> Response:
    headers = {**SECURITY, "cache-control": PRIVATE, "content-disposition": disposition}
    return Response(body, headers=headers, media_type=media_type)

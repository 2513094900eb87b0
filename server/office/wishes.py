"""Which homes does an address of ours ask for, and how is that said in words?"""

from collections.abc import Mapping
from typing import Final
from urllib.parse import urlencode

from kb.register import CARDS, NO_RANGE, Chosen, Month, month_of, read_month
from server.office.forms import Field, Options
from server.office.room import Room

AHEAD: Final = 12
"""How many months are offered."""

LONGEST: Final = 40


def asked(query: Mapping[str, str]) -> Chosen:
    """What an address asks for; what cannot be read asks for nothing."""
    card = query.get("card", "")
    return Chosen(
        query.get("range", "")[:LONGEST],
        read_month(query.get("service", "")),
        read_month(query.get("alarm", "")),
        query.get("place", "").strip()[:LONGEST],
        card if card in CARDS else "",
    )


def as_query(chosen: Chosen, **more: object) -> str:
    """The end of an address that asks for these homes."""
    said = {
        "range": chosen.range,
        "service": str(chosen.service or ""),
        "alarm": str(chosen.alarm or ""),
        "place": chosen.place,
        "card": chosen.card,
        **more,
    }
    return urlencode({name: words for name, words in said.items() if words})


def fields(room: Room, chosen: Chosen) -> tuple[Field, ...]:
    """The form that asks, filled in."""
    now = month_of(room.today)
    months: Options = (("", "any"), *((str(now.after(n)), f"{now.after(n).first:%B %Y}") for n in range(AHEAD)))
    ranges = {id: family.name for id, family in room.site.ranges.items()}
    ours: Options = (("", "any"), *ranges.items(), (NO_RANGE, "none of our ranges"))
    cards: Options = (("", "any"), *CARDS.items())
    return (
        Field("place", "Town, or first part of the postcode", value=chosen.place),
        Field("range", "Range", "choice", chosen.range, ours),
        Field("service", "Service due by the end of", "choice", _month(chosen.service), months),
        Field("alarm", "An alarm ends by the end of", "choice", _month(chosen.alarm), months),
        Field("card", "Card", "choice", chosen.card, cards),
    )


def _month(month: Month | None) -> str:
    return str(month or "")

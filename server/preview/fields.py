"""What is a field called that keeps a card from being printed?"""

from collections.abc import Mapping
from typing import Final

from kb.home import PLACES

_FIRM: Final = "Our firm's file"
_NAMES: Final[Mapping[str, str]] = {
    "firm.name": f"{_FIRM}: the name",
    "firm.phones": f"{_FIRM}: the phones",
    "firm.hours": f"{_FIRM}: phones and opening hours",
    "firm.site": f"{_FIRM}: the site's address",
    "firm.registration": f"{_FIRM}: the registration",
    "firm.region": f"{_FIRM}: the region",
    "firm.emergency": f"{_FIRM}: the emergency numbers",
    "firm.emergency.gas": f"{_FIRM}: the gas emergency number",
    "firm.emergency.emergency": f"{_FIRM}: the number of the emergency services",
    "home.key": "This home: the key",
    "home.range": "This home: the appliance's range",
    "range": "This home: the appliance's range",
    "home.appliance": "This home: what stands on the appliance's plate",
    "home.facts.system": "This home: sealed or vented",
    "range.reset": "The range's file: how it is reset",
    "articles": "The articles",
}


def name_of(field: str) -> str:
    """A field in words; one that has none goes by its own name."""
    kind, _, rest = field.partition(": ")
    if kind == "articles" and rest:
        return f"The article {rest}"
    if field.startswith("home.places."):
        return f"This home: {PLACES.get(field.removeprefix('home.places.'), 'where things are')}"
    if field.startswith("region."):
        return "The profile of our region"
    if field.startswith("words."):
        return "The card's own words"
    return _NAMES.get(field, field)

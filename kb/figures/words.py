"""How are categories and numbers said in the figures?"""

from collections.abc import Mapping
from typing import Final

OTHER: Final = "other"
"""The category of a call that no article was about."""

_CATEGORIES: Final[Mapping[str, str]] = {
    "wont-stop": "Won't stop",
    "flue-fan": "Flue or fan",
    "gas-supply": "Gas supply or credit",
    "carbon-monoxide": "Carbon monoxide",
    OTHER: "Anything else",
}


def category_words(category: str) -> str:
    """A category as people say it."""
    return _CATEGORIES.get(category, category.replace("-", " ").capitalize())


def counted(number: int, one: str, many: str = "") -> str:
    """A number with its thing."""
    return f"{number:,} {one if number == 1 else many or one + 's'}"

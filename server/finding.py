"""How is a home found by a name or a number that must not come into an address?

What is typed is sent in a form and answered with a way on to the keys of what was found, which name nobody: so
histories and proxies keep no name and no number, and Back and reload still work.
"""

from collections.abc import Iterable
from typing import Final

from starlette.requests import Request

from kb import keys

MOST: Final = 20
"""So many homes are shown; whoever wants fewer types more."""

LONGEST: Final = 100
"""So much of what is typed is looked for."""


def typed_in(typed: str) -> str:
    """What somebody typed, as it is looked for."""
    return typed.strip()[:LONGEST]


def joined(found: Iterable[str]) -> str:
    """The keys of what was found, as an address has them."""
    return ".".join(found)


def keys_of(request: Request) -> list[str]:
    """The keys that an address has behind `keys`."""
    return [key for key in request.path_params["keys"].split(".")[:MOST] if keys.tidy(key) == key]

"""Which homes does the demo show, and how do they get into a store?"""

import tomllib
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, Final

from kb.facts import GaugeMarks, Known
from kb.home import Home
from server.store import Store
from server.store.upgrade import migrate

FOLDER: Final = Path(__file__).parent
FIRM: Final = FOLDER / "firm.toml"
RANGES: Final = FOLDER / "ranges"
HOMES: Final = FOLDER / "homes.toml"


def load(store_address: str) -> list[str]:
    """Put the demo's homes into the store at an address, made if need be, and return the keys that open one.

    Loading again leaves the store as it was after the first time.
    """
    migrate(store_address)
    with Store(store_address) as store:
        for fields in _written():
            home = _home(fields)
            store.put(home)
            if "revoked" in fields:
                store.revoke(home.key, fields["revoked"])
    return keys()


def keys() -> list[str]:
    """The keys that open a home, in the order of the file."""
    return [fields["key"] for fields in _written() if "revoked" not in fields]


def _written() -> Iterator[Mapping[str, Any]]:
    yield from tomllib.loads(HOMES.read_text(encoding="utf-8"))["home"]


def _home(fields: Mapping[str, Any]) -> Home:
    return Home(
        key=fields["key"],
        range=fields["range"],
        appliance=fields["appliance"],
        known=Known(fields.get("facts", {}), GaugeMarks(**fields.get("marks", {}))),
        places=fields.get("places", {}),
        fitted=fields.get("fitted"),
        next_service=fields.get("next-service"),
    )

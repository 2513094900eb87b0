"""Which homes does the demo show, and how do they get into a store?"""

import tomllib
from collections.abc import Iterator, Mapping
from datetime import date
from pathlib import Path
from typing import Any, Final

from demo.year import year
from kb.facts import GaugeMarks, Known
from kb.home import Home
from server.site import Site
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


def load_year(site: Site, today: date) -> None:
    """Put an invented year of calls and jobs up to a day into the store, unless anything was counted there before."""
    store = site.store.figures
    if store.earliest() is None:
        calls, jobs = year(site.library, today, range(1, len(site.store.homes()) + 1))
        store.add_calls(calls)
        store.add_jobs(jobs)


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

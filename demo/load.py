"""Which homes and people does the demo show, who works for its firm, and how do they get into a store?"""

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import UTC, datetime
from functools import cache
from pathlib import Path
from typing import Any, Final

from kb.facts import GaugeMarks, Known
from kb.home import Home
from kb.register import Address, Alarm, Mistake, Need, Person, read_phone
from kb.staff import Account, Role, made_password
from server.staff.passwords import hashed
from server.store import Store
from server.store.staff import NameTaken
from server.store.upgrade import migrate

FOLDER: Final = Path(__file__).parent
FIRM: Final = FOLDER / "firm.toml"
RANGES: Final = FOLDER / "ranges"
HOMES: Final = FOLDER / "homes.toml"
PEOPLE: Final = FOLDER / "people.toml"
WHO: Final = "demo"
_REGION: Final = "GB"


def load(store_address: str, fresh: bool = False) -> list[str]:
    """Put the demo's homes into the store at an address, made if need be, and return the keys that open one.

    A home that is there already stays as somebody left it, unless the demo is to begin afresh: then its homes and their
    people are as they are written here, and nothing else in the store is touched.
    """
    migrate(store_address)
    with Store(store_address) as store:
        for fields in _written():
            home = _home(fields)
            there = store.home(home.key)
            if there is None or (fresh and isinstance(there, Home)):
                store.put(home)
                _put_people(store, home)
            if "revoked" in fields:
                store.revoke(home.key, fields["revoked"])
    return keys()


def keys() -> list[str]:
    """The keys that open a home, in the order of the file."""
    return [fields["key"] for fields in _written() if "revoked" not in fields]


def let_in(store: Store) -> Mapping[str, str]:
    """An account for each role, named like it, with a password made this very moment; by name."""
    passwords = {role.value: made_password() for role in Role}
    for name, password in passwords.items():
        try:
            store.staff.add(Account(name, frozenset({Role(name)})), hashed(password), datetime.now(UTC))
        except NameTaken:
            store.staff.set_password(name, hashed(password))
    return passwords


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


@cache
def _told() -> Mapping[str, Any]:
    return tomllib.loads(PEOPLE.read_text(encoding="utf-8"))


def _put_people(store: Store, home: Home) -> None:
    """Write the record around a home; whoever is there already keeps their number."""
    told = _told().get(home.key)
    before = store.register.read(home.key, WHO) if told else None
    if told is None or before is None:
        return
    numbers = {person.name: person.id for person in before.people}
    people = tuple(replace(each, id=numbers.get(each.name)) for each in map(_person, told["people"]))
    first = replace(before.appliances[0], **_plain(told["appliance"]))
    wrong = store.register.put(
        replace(
            before,
            appliances=(first, *before.appliances[1:]),
            address=Address(tuple(told["lines"]), told["town"], told["postcode"]),
            people=people,
            alarms=tuple(Alarm(**each) for each in told.get("alarms", ())),
        ),
        WHO,
        before,
    )
    if wrong:
        raise ValueError(f"Expected the demo's people to be kept, found {wrong[0]} Mend {PEOPLE.name}.")


def _person(fields: Mapping[str, Any]) -> Person:
    needs = tuple(Need(each["kind"], each["consented"], each.get("reviewed")) for each in fields.get("needs", ()))
    return Person(fields["name"], fields.get("role", "lives-here"), tuple(map(_phone, fields["phones"])), needs)


def _phone(written: str) -> str:
    read = read_phone(written, _REGION)
    if isinstance(read, Mistake):
        raise ValueError(str(read))
    return read


def _plain(fields: Mapping[str, Any]) -> Mapping[str, Any]:
    return {name.replace("-", "_"): value for name, value in fields.items()}

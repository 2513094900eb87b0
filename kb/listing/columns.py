"""Which columns can a table of homes have, and what may stand in each?"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Final

from kb.facts import FACTS, TRIED
from kb.home import PLACES
from kb.register import ALARMS, FUELS, KINDS, NEEDS, ROLES

_DAY: Final = "a day such as 2026-11-25 or 25/11/2026"
_NUMBER: Final = re.compile(r"\[(\d+)\]")


@dataclass(frozen=True, slots=True)
class Column:
    """One column, or a row of them: `name` and `path` have an n and an m where a number stands.

    `expects` says in plain words what may stand in a cell, and `values` are the short names it may be, if it is closed.
    """

    name: str
    path: str
    expects: str
    values: Mapping[str, str] = field(default_factory=dict)
    place: tuple[int, ...] = ()

    def __hash__(self) -> int:
        """By its path."""
        return hash(self.path)


def _columns() -> Iterator[tuple[str, str, str, Mapping[str, str]]]:
    none: Mapping[str, str] = {}
    yield "Key", "key", "the home's key; leave it empty for a new home, which then gets one", none
    yield "Address n", "address.lines[n]", "a line of the address above the town, such as 14 Mill Lane", none
    yield "Town", "address.town", "the town", none
    yield "Postcode", "address.postcode", "the postcode", none
    for fact, values in FACTS.items():
        yield _spoken(fact), f"facts.{fact}", "what is known of the home", values
    for tried in TRIED.values():
        yield _spoken(tried), f"facts.{tried}", "how often it was tried before, 0 to 3", none
    for mark in ("low", "aim", "high"):
        yield f"Gauge {mark}", f"marks.{mark}", "the home's own mark in bar, such as 1.2", none
    for action in TRIED:
        yield f"At most {_spoken(action).lower()}", f"limits.{action}", "how often at most, 0 to 9", none
    for place, words in PLACES.items():
        yield f"Where {_spoken(place).lower()}", f"places.{place}", f"in plain words: {words}", none
    yield from _of_appliances(none)
    yield "Alarm n kind", "alarms[n].kind", "what it warns of", ALARMS
    yield "Alarm n place", "alarms[n].place", "where it hangs", none
    yield "Alarm n ends", "alarms[n].ends", f"{_DAY}, after which it must be replaced", none
    yield from _of_people(none)
    yield "Version", "version", "as the export wrote it, so that nobody's later change is overwritten; or nothing", none


def _of_appliances(none: Mapping[str, str]) -> Iterator[tuple[str, str, str, Mapping[str, str]]]:
    yield "Appliance n plate", "appliances[n].plate", "the words on its plate; the first is the one on the card", none
    yield "Appliance n range", "appliances[n].range", "the id of its range, such as marlpit-c", none
    yield "Appliance n fuel", "appliances[n].fuel", "what it runs on", FUELS
    yield "Appliance n kind", "appliances[n].kind", "what it is", KINDS
    yield "Appliance n serial", "appliances[n].serial", "its serial number", none
    for name in ("fitted", "warranty ends", "serviced", "next service"):
        yield f"Appliance n {name}", f"appliances[n].{name.replace(' ', '_')}", _DAY, none


def _of_people(none: Mapping[str, str]) -> Iterator[tuple[str, str, str, Mapping[str, str]]]:
    yield "Person n name", "people[n].name", "their name", none
    yield "Person n role", "people[n].role", "how they belong to the home; lives-here if it is empty", ROLES
    yield "Person n phone m", "people[n].phones[m]", "a phone number, written in any way", none
    yield "Person n need m", "people[n].needs[m].kind", "what they need, never why", NEEDS
    yield "Person n need m agreed", "people[n].needs[m].consented", f"{_DAY}: when they agreed to its being noted", none
    yield "Person n need m asked again", "people[n].needs[m].reviewed", f"{_DAY}: when they last said it holds", none


def _spoken(name: str) -> str:
    return name.replace("-", " ").capitalize()


def _placed() -> Iterator[Column]:
    """Every column with its place in the row: items in order, and within one the order above."""
    ranks: dict[str, int] = {}
    for name, path, expects, values in _columns():
        parts = path.replace("[m]", "[n]").split("[n]")
        wholes = ["[n]".join(parts[: k + 1]) for k in range(len(parts))]
        place = tuple(ranks.setdefault(whole or path, len(ranks)) for whole in wholes)
        yield Column(name, path, expects, values, place)


COLUMNS: Final = tuple(_placed())
"""Every column there is."""

_USUAL: Final = (
    *(each.path for each in COLUMNS if not any(part in each.path for part in ("[", "tried", "limits", "version"))),
    *(f"address.lines[{n}]" for n in (0, 1)),
    *(each.path.replace("[n]", "[0]") for each in COLUMNS if each.path.startswith("appliances")),
    *(each.path.replace("[n]", f"[{n}]") for each in COLUMNS if each.path.startswith("alarms") for n in (0, 1)),
    *(f"people[{n}].{name}" for n in (0, 1) for name in ("name", "role", "phones[0]", "phones[1]")),
    *(f"people[0].needs[0].{name}" for name in ("kind", "consented", "reviewed")),
)


def path_of(name: str) -> str | None:
    """The field that a column's name means, in any case and spacing, or None for no such column."""
    folded = _folded(name)
    for pattern, path in _patterns():
        found = pattern.fullmatch(folded)
        if found:
            numbers = [int(number) - 1 for number in found.groups()]
            return _numbered(path, (f"[{number}]" for number in numbers))
    return None


def name_of(path: str) -> str:
    """The name of the column that a field stands in; of a whole item, its first column."""
    pattern, numbers = _pattern(path)
    column = _by_path().get(pattern) or next(
        (each for each in COLUMNS if each.path.startswith((f"{pattern}.", f"{pattern}["))), None
    )
    if column is None:
        return path
    name = column.name.replace(" n", f" {numbers[0] + 1 if numbers else 1}", 1) if "[n]" in column.path else column.name
    return name.replace(" m", f" {numbers[1] + 1 if len(numbers) > 1 else 1}") if "[m]" in column.path else name


def in_order(paths: Iterable[str]) -> tuple[str, ...]:
    """Fields in the order of their columns."""
    return tuple(sorted(paths, key=_sorting))


def _sorting(path: str) -> tuple[int, ...]:
    pattern, numbers = _pattern(path)
    place = _by_path()[pattern].place
    return tuple(each for k, rank in enumerate(place) for each in (rank, *numbers[k : k + 1]))


def _pattern(path: str) -> tuple[str, tuple[int, ...]]:
    signs = iter("nm")
    numbers = tuple(int(number) for number in _NUMBER.findall(path))
    return _NUMBER.sub(lambda _: f"[{next(signs)}]", path), numbers


def _numbered(path: str, numbers: Iterable[str]) -> str:
    given = iter(numbers)
    return re.sub(r"\[[nm]\]", lambda _: next(given), path)


@cache
def _by_path() -> Mapping[str, Column]:
    return {column.path: column for column in COLUMNS}


@cache
def _patterns() -> tuple[tuple[re.Pattern[str], str], ...]:
    return tuple((re.compile(_as_pattern(each)), each.path) for each in COLUMNS)


def _as_pattern(column: Column) -> str:
    words = (r"([1-9]\d?)" if word in ("n", "m") else _folded(word) for word in column.name.split())
    return "".join(words)


def _folded(name: str) -> str:
    return "".join(sign for sign in name.casefold() if sign.isalnum())


TEMPLATE: Final = in_order(_USUAL)
"""The fields of the usual columns: what a template offers, and an export always has."""

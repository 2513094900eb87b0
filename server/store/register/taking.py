"""How is a whole table of homes taken into the register, all of it or nothing?"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any, Final, TypeVar

from sqlalchemy import Connection, Row, select

from kb import keys
from kb.listing import Problem
from kb.listing import Row as Line
from kb.register import Address, Mistake, Record, changed, version_of, written
from server.store.register.audit import Did, trace
from server.store.register.many import CHUNK, records_of, write_many
from server.store.register.neighbours import Place, another_at, keys_at, place_of
from server.store.tables import HOMES

_MEANWHILE: Final = Mistake(
    "version",
    "a home as it was when this table was written",
    "that somebody changed it meanwhile",
    "Look at the home; to write yours over it all the same, empty this cell.",
)
Tell = Callable[[int], object]
_Item = TypeVar("_Item")


@dataclass(frozen=True, slots=True)
class Taken:
    """What a table brought: how many homes are new, were changed, or stayed as they were, and all that is wrong."""

    new: int = 0
    changed: int = 0
    same: int = 0
    problems: tuple[Problem, ...] = ()


@dataclass(frozen=True, slots=True)
class _Step:
    before: Record | None
    after: Record
    problems: tuple[Problem, ...]

    @property
    def fields(self) -> tuple[str, ...]:
        return changed(self.before, self.after)


def take(
    connection: Connection, lines: Sequence[Line], region: str, today: date, by: str, dry_run: bool, tell: Tell
) -> Taken:
    """Hold every line against the register, and write them all unless one of them is wrong or nobody wants it yet.

    `tell` hears how many lines more were gone through, each once to check and once to write.
    """
    steps: list[_Step] = []
    first: dict[Place, int] = {}
    for some in _chunks(lines):
        steps += _checked(connection, some, region, today, first)
        tell(len(some))
    problems = tuple(problem for step in steps for problem in step.problems)
    moving = [step for step in steps if step.before != step.after]
    if not problems and not dry_run:
        for these in _chunks(moving):
            _write(connection, these, by)
            tell(len(these))
    tell(2 * len(lines) - len(steps) - (len(moving) if not problems and not dry_run else 0))
    new = sum(step.before is None for step in steps)
    return Taken(new, len(moving) - new, len(steps) - len(moving), problems)


def _checked(
    connection: Connection, lines: Sequence[Line], region: str, today: date, first: dict[Place, int]
) -> Iterator[_Step]:
    homes = _homes(connection, [line.key for line in lines if line.key])
    live = [home for home in homes.values() if home.revoked is None]
    before = {record.key: record for record in records_of(connection, live)}
    builds = [line.over(before.get(line.key) or Record(line.key or keys.make(), ()), region, today) for line in lines]
    new = [built.record.address for line, built in zip(lines, builds, strict=True) if not line.key]
    places = keys_at(connection, new)
    for line, built in zip(lines, builds, strict=True):
        wrong = (*built.mistakes, *_withdrawn(homes.get(line.key)), *_again(line, built.record.address, places, first))
        old = before.get(line.key)
        if old is not None and built.record != old and _changed_since(line, old, region):
            wrong = (*wrong, _MEANWHILE)
        yield _Step(old, built.record, tuple(line.problem(mistake) for mistake in wrong))


def _withdrawn(home: Row[Any] | None) -> Iterator[Mistake]:
    if home is not None and home.revoked is not None:
        next_step = "Use the key of the home's new card."
        yield Mistake("key", "a key that opens a home", f"{home.key}, withdrawn", next_step)


def _again(
    line: Line, address: Address | None, there: Mapping[Place, str], first: dict[Place, int]
) -> Iterator[Mistake]:
    """A new home where one is already, in the register or further up in the table.

    So a file that is sent twice makes no home twice.
    """
    if line.key or address is None:
        return
    place = place_of(address)
    if place in there:
        yield another_at(there[place])
    elif first.setdefault(place, line.number) != line.number:
        next_step = "Keep one of the two rows, or add what tells the homes apart, such as Flat 2."
        yield Mistake("address", "each new home once", f"the address of row {first[place]} again", next_step)


def _changed_since(line: Line, there: Record, region: str) -> bool:
    """Whether somebody changed a home after the table was written; a line that does not say is taken as it is."""
    return bool(line.version) and line.version != version_of(written(there, region))


def _homes(connection: Connection, sought: Sequence[str]) -> Mapping[str, Row[Any]]:
    """The own rows of keys, which nobody else changes meanwhile."""
    wanted = select(HOMES).where(HOMES.c.key.in_(sought)).order_by(HOMES.c.id).with_for_update(key_share=True)
    return {home.key: home for home in connection.execute(wanted)}


def _write(connection: Connection, steps: Sequence[_Step], by: str) -> None:
    numbers = write_many(connection, [step.after for step in steps])
    alike: dict[tuple[str, ...], list[int]] = {}
    for step in steps:
        alike.setdefault(step.fields, []).append(numbers[step.after.key])
    for fields, homes in alike.items():
        trace(connection, by, Did.CHANGED, homes, fields)


def _chunks(items: Sequence[_Item]) -> Iterator[Sequence[_Item]]:
    return (items[start : start + CHUNK] for start in range(0, len(items), CHUNK))

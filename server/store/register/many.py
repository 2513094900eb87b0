"""How are the records of many homes read and written, some hundreds at a time?"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict
from typing import Any, Final

from sqlalchemy import Connection, Row, Table, bindparam, delete, insert, select, update

from kb.register import Person, Record, home_in, review_due
from server.store.homes import put_statement, row_of
from server.store.register import seeking
from server.store.register.reading import Rows, assembled
from server.store.register.tables import ADDRESSES, ALARMS, APPLIANCES, NEEDS, PEOPLE, PHONES
from server.store.register.writing import address_row, person_row, phone_row
from server.store.tables import HOMES

CHUNK: Final = 500
"""How many homes are held at a time: a statement names them all."""

_OF_HOMES: Final = (ADDRESSES, PEOPLE, APPLIANCES, ALARMS)
_THING: Final = (ADDRESSES, APPLIANCES, ALARMS)


def records_of(connection: Connection, homes: Sequence[Row[Any]]) -> Iterator[Record]:
    """The records of the homes whose own rows these are, in their order."""
    ids = [home.id for home in homes]
    of_homes = {table.name: _grouped(connection, select(table), table, "home_id", ids) for table in _OF_HOMES}
    people = [person.id for rows in of_homes["people"].values() for person in rows]
    of_people = {t.name: _grouped(connection, select(t), t, "person_id", people) for t in (PHONES, NEEDS)}
    for home in homes:
        address = of_homes["addresses"].get(home.id, [])
        yield assembled(
            home,
            Rows(
                address[0] if address else None,
                of_homes["people"].get(home.id, []),
                of_homes["appliances"].get(home.id, []),
                of_homes["alarms"].get(home.id, []),
                of_people["phones"],
                of_people["needs"],
            ),
        )


def write_many(connection: Connection, records: Sequence[Record]) -> Mapping[str, int]:
    """Write records over what was there under their keys, and return the numbers of their homes by key."""
    connection.execute(put_statement(connection.dialect.name), [row_of(home_in(record)) for record in records])
    sought = HOMES.c.key.in_([record.key for record in records])
    numbers = {row.key: row.id for row in connection.execute(select(HOMES.c.key, HOMES.c.id).where(sought))}
    for table in _THING:
        connection.execute(delete(table).where(table.c.home_id.in_(numbers.values())))
    placed = [(numbers[record.key], record) for record in records]
    _add(connection, ADDRESSES, [{"home_id": n, **address_row(r.address)} for n, r in placed if r.address])
    _add(connection, APPLIANCES, [{"home_id": n, **asdict(each)} for n, r in placed for each in r.appliances])
    _add(connection, ALARMS, [{"home_id": n, **asdict(each)} for n, r in placed for each in r.alarms])
    _write_people(connection, placed)
    seeking.renew_many(connection, dict(placed))
    return numbers


def _grouped(
    connection: Connection, wanted: Any, table: Table, by: str, ids: Sequence[int]
) -> dict[int, list[Row[Any]]]:
    found: dict[int, list[Row[Any]]] = {}
    for start in range(0, len(ids), CHUNK):
        some = wanted.where(table.c[by].in_(ids[start : start + CHUNK])).order_by(*table.primary_key)
        for row in connection.execute(some):
            found.setdefault(getattr(row, by), []).append(row)
    return found


def _write_people(connection: Connection, placed: Sequence[tuple[int, Record]]) -> None:
    homes = [number for number, _ in placed]
    there = set(connection.execute(select(PEOPLE.c.id).where(PEOPLE.c.home_id.in_(homes))).scalars())
    people = [(number, person) for number, record in placed for person in record.people]
    stay = [(person.id, person) for _, person in people if person.id in there]
    new = [(number, person) for number, person in people if person.id not in there]
    _forget(connection, there - {id for id, _ in stay}, {id for id, _ in stay if id is not None})
    if stay:
        change = update(PEOPLE).where(PEOPLE.c.id == bindparam("this"))
        connection.execute(change, [{"this": id, **person_row(person)} for id, person in stay])
    made: Sequence[int] = ()
    if new:
        add = insert(PEOPLE).returning(PEOPLE.c.id, sort_by_parameter_order=True)
        made = connection.execute(add, [{"home_id": n, **person_row(person)} for n, person in new]).scalars().all()
    numbered = [*stay, *((id, person) for id, (_, person) in zip(made, new, strict=True))]
    _add_to_people(connection, numbered)


def _forget(connection: Connection, gone: set[int], changed: set[int]) -> None:
    for start in range(0, len(gone), CHUNK):
        connection.execute(delete(PEOPLE).where(PEOPLE.c.id.in_(sorted(gone)[start : start + CHUNK])))
    for table in (PHONES, NEEDS):
        for start in range(0, len(changed), CHUNK):
            connection.execute(delete(table).where(table.c.person_id.in_(sorted(changed)[start : start + CHUNK])))


def _add_to_people(connection: Connection, people: Sequence[tuple[int | None, Person]]) -> None:
    _add(connection, PHONES, [{"person_id": id, **phone_row(number)} for id, each in people for number in each.phones])
    needs = [(id, need) for id, each in people for need in each.needs]
    _add(connection, NEEDS, [{"person_id": id, **asdict(need), "due": review_due(need)} for id, need in needs])


def _add(connection: Connection, table: Table, rows: Sequence[Mapping[str, Any]]) -> None:
    if rows:
        connection.execute(insert(table), rows)

"""How does a record become the rows of its home?"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict
from typing import Any

from sqlalchemy import Connection, Table, delete, insert, select, update

from kb.register import Address, Person, Record, home_in, review_due
from server.store.homes import put_statement, row_of
from server.store.register import seeking
from server.store.register.tables import ADDRESSES, ALARMS, APPLIANCES, NEEDS, PEOPLE, PHONES
from server.store.tables import HOMES

Rows = Sequence[Mapping[str, Any]]


def write(connection: Connection, record: Record) -> int:
    """Write a record over whatever was there under its key, and return the number of its home."""
    connection.execute(put_statement(connection.dialect.name), row_of(home_in(record)))
    home_id = connection.execute(select(HOMES.c.id).where(HOMES.c.key == record.key)).scalar_one()
    _replace(connection, ADDRESSES, home_id, [address_row(record.address)] if record.address else [])
    _replace(connection, APPLIANCES, home_id, [asdict(each) for each in record.appliances])
    _replace(connection, ALARMS, home_id, [asdict(each) for each in record.alarms])
    _write_people(connection, home_id, record.people)
    seeking.renew(connection, home_id)
    return int(home_id)


def address_row(address: Address) -> Mapping[str, Any]:
    """An address as it is written, with what it is found by."""
    return {
        "lines": list(address.lines),
        "town": address.town,
        "postcode": address.postcode,
        "compact": address.postcode.replace(" ", "").replace("-", ""),
    }


def phone_row(number: str) -> Mapping[str, Any]:
    """A phone number as it is written, with what it is found by."""
    return {"number": number, "backwards": number.removeprefix("+")[::-1]}


def person_row(person: Person) -> Mapping[str, Any]:
    """A person as they are written, without phones and needs."""
    return {"name": person.name, "role": person.role}


def _replace(connection: Connection, table: Table, home_id: int, rows: Iterable[Mapping[str, Any]]) -> None:
    connection.execute(delete(table).where(table.c.home_id == home_id))
    _add(connection, table, [{"home_id": home_id, **row} for row in rows])


def _write_people(connection: Connection, home_id: int, people: Iterable[Person]) -> None:
    there = set(connection.execute(select(PEOPLE.c.id).where(PEOPLE.c.home_id == home_id)).scalars())
    stay = [person for person in people if person.id in there]
    gone = there - {person.id for person in stay}
    connection.execute(delete(PEOPLE).where(PEOPLE.c.id.in_(gone)))
    for person in people:
        _write_person(connection, home_id, person, known=person.id in there)


def _write_person(connection: Connection, home_id: int, person: Person, known: bool) -> None:
    if known:
        connection.execute(update(PEOPLE).where(PEOPLE.c.id == person.id).values(**person_row(person)))
        id = person.id
        for table in (PHONES, NEEDS):
            connection.execute(delete(table).where(table.c.person_id == id))
    else:
        row = {"home_id": home_id, **person_row(person)}
        id = connection.execute(insert(PEOPLE).values(row).returning(PEOPLE.c.id)).scalar_one()
    _add(connection, PHONES, [{"person_id": id, **phone_row(number)} for number in person.phones])
    needs = [{"person_id": id, **asdict(need), "due": review_due(need)} for need in person.needs]
    _add(connection, NEEDS, needs)


def _add(connection: Connection, table: Table, rows: Rows) -> None:
    if rows:
        connection.execute(insert(table), rows)

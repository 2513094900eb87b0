"""How do the rows of a home become its record?"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final

from sqlalchemy import Connection, Row, Select, Table, bindparam, select

from kb import keys
from kb.register import Address, Alarm, Appliance, Need, Person, Record
from server.store.homes import home_of
from server.store.register.tables import ADDRESSES, ALARMS, APPLIANCES, NEEDS, PEOPLE, PHONES
from server.store.tables import HOMES


def _of_home(table: Table) -> Select[Any]:
    return select(table).where(table.c.home_id == bindparam("home")).order_by(*table.primary_key)


def _of_people(table: Table) -> Select[Any]:
    wanted = table.join(PEOPLE, PEOPLE.c.id == table.c.person_id)
    return select(table).select_from(wanted).where(PEOPLE.c.home_id == bindparam("home")).order_by(table.c.id)


_HOME: Final = select(HOMES).where(HOMES.c.key == bindparam("sought"))
_TO_READ: Final = _HOME.with_for_update(read=True)
# The trail of a search may go on meanwhile: it needs the home to stay, not to stay the same.
_TO_CHANGE: Final = _HOME.with_for_update(key_share=True)
_ADDRESS, _PEOPLE, _APPLIANCES, _ALARMS = (_of_home(table) for table in (ADDRESSES, PEOPLE, APPLIANCES, ALARMS))
_PHONES, _NEEDS = _of_people(PHONES), _of_people(NEEDS)


def row_of_home(connection: Connection, key: str, change: bool = False) -> Row[Any] | None:
    """A home's own row, which nobody else changes until the transaction ends; None for no key or a withdrawn one."""
    row = row_of_key(connection, key, change)
    return None if row is None or row.revoked else row


def row_of_key(connection: Connection, key: str, change: bool = False) -> Row[Any] | None:
    """The row of a key, withdrawn or not."""
    if keys.tidy(key) != key:
        return None
    return connection.execute(_TO_CHANGE if change else _TO_READ, {"sought": key}).first()


@dataclass(frozen=True, slots=True)
class Rows:
    """All the rows that belong to a home; `phones` and `needs` are by the number of the person."""

    address: Row[Any] | None
    people: Sequence[Row[Any]]
    appliances: Sequence[Row[Any]]
    alarms: Sequence[Row[Any]]
    phones: Mapping[int, Sequence[Row[Any]]]
    needs: Mapping[int, Sequence[Row[Any]]]


def record_of(connection: Connection, home: Row[Any]) -> Record:
    """The record of the home whose own row this is; raises DamagedHome if nobody could have written it so."""
    this = {"home": home.id}

    def rows(query: Select[Any]) -> Sequence[Row[Any]]:
        return connection.execute(query, this).all()

    address = rows(_ADDRESS)
    phones, needs = _by_person(rows(_PHONES)), _by_person(rows(_NEEDS))
    there = Rows(address[0] if address else None, rows(_PEOPLE), rows(_APPLIANCES), rows(_ALARMS), phones, needs)
    return assembled(home, there)


def things_of(connection: Connection, home: Row[Any]) -> Record:
    """The record of a home without its address and people: what stands in it, and where."""
    this = {"home": home.id}
    appliances, alarms = (connection.execute(query, this).all() for query in (_APPLIANCES, _ALARMS))
    return assembled(home, Rows(None, (), appliances, alarms, {}, {}))


def assembled(home: Row[Any], rows: Rows) -> Record:
    """The record that a home's rows tell; raises DamagedHome if nobody could have written it so."""
    opened, address = home_of(home), rows.address
    first = Appliance(opened.appliance, opened.range, fitted=opened.fitted, next_service=opened.next_service)
    kept = [_appliance(row) for row in rows.appliances]
    if kept:
        first = replace(
            kept[0],
            plate=first.plate,
            range=first.range,
            fitted=first.fitted,
            next_service=first.next_service,
        )
    return Record(
        opened.key,
        (first, *kept[1:]),
        opened.known,
        opened.places,
        Address(tuple(address.lines), address.town, address.postcode) if address else None,
        tuple(_person(row, rows) for row in rows.people),
        tuple(Alarm(row.kind, row.place, row.ends) for row in rows.alarms),
    )


def _by_person(rows: Iterable[Row[Any]]) -> Mapping[int, Sequence[Row[Any]]]:
    found: dict[int, list[Row[Any]]] = {}
    for row in rows:
        found.setdefault(row.person_id, []).append(row)
    return found


def _person(row: Row[Any], rows: Rows) -> Person:
    """A person with their phones and needs, in the order they came."""
    phones = tuple(phone.number for phone in rows.phones.get(row.id, ()))
    needs = tuple(Need(need.kind, need.consented, need.reviewed) for need in rows.needs.get(row.id, ()))
    return Person(row.name, row.role, phones, needs, row.id)


def _appliance(row: Row[Any]) -> Appliance:
    return Appliance(
        plate=row.plate,
        range=row.range,
        fuel=row.fuel,
        kind=row.kind,
        serial=row.serial,
        fitted=row.fitted,
        warranty_ends=row.warranty_ends,
        serviced=row.serviced,
        next_service=row.next_service,
    )

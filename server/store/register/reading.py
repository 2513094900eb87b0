"""How do the rows of a home become its record?"""

from dataclasses import replace
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


def record_of(connection: Connection, home: Row[Any]) -> Record:
    """The record of the home whose own row this is; raises DamagedHome if nobody could have written it so."""
    opened, this = home_of(home), {"home": home.id}
    address = connection.execute(_ADDRESS, this).first()
    first = Appliance(opened.appliance, opened.range, fitted=opened.fitted, next_service=opened.next_service)
    kept = [_appliance(row) for row in connection.execute(_APPLIANCES, this)]
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
        people_of(connection, home.id),
        tuple(Alarm(row.kind, row.place, row.ends) for row in connection.execute(_ALARMS, this)),
    )


def people_of(connection: Connection, home_id: int) -> tuple[Person, ...]:
    """The people of a home, in the order they came."""
    this = {"home": home_id}
    phones: dict[int, list[str]] = {}
    needs: dict[int, list[Need]] = {}
    for row in connection.execute(_PHONES, this):
        phones.setdefault(row.person_id, []).append(row.number)
    for row in connection.execute(_NEEDS, this):
        needs.setdefault(row.person_id, []).append(Need(row.kind, row.consented, row.reviewed))
    return tuple(
        Person(row.name, row.role, tuple(phones.get(row.id, ())), tuple(needs.get(row.id, ())), row.id)
        for row in connection.execute(_PEOPLE, this)
    )


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

"""Records of homes for the tests of the register."""

from datetime import date
from random import Random
from typing import Final

from kb import keys
from kb.facts import GaugeMarks, Known
from kb.register import Address, Alarm, Appliance, Built, Need, Person, Record
from server.store.register import Register

TODAY: Final = date(2026, 11, 25)
FIRST, SECOND, THIRD = (keys.make(Random(seed)) for seed in range(3))


def anna() -> Person:
    """Somebody with two phones and two needs."""
    needs = (Need("over-65", date(2026, 1, 5)), Need("power", date(2025, 3, 1), date(2026, 3, 1)))
    return Person("Anna Whitfield", "lives-here", ("+441632960123", "+447700900456"), needs)


def record(
    key: str = FIRST, *people: Person, street: str = "14 Mill Lane", town: str = "Ashcombe", postcode: str = "ZZ99 3WZ"
) -> Record:
    """A home with something in every field, Anna's unless others live there."""
    combi = Appliance(
        plate="Marlpit C 28",
        range="marlpit-c",
        fuel="natural-gas",
        kind="combi",
        serial="MC-000123",
        fitted=date(2023, 10, 4),
        warranty_ends=date(2030, 10, 4),
        serviced=date(2025, 10, 1),
        next_service=date(2026, 10, 4),
    )
    return Record(
        key,
        (combi, Appliance("Emberglow 4", kind="fire", fuel="natural-gas")),
        Known({"system": "sealed", "tenure": "rent"}, GaugeMarks(0.7, 1.1, 1.9), {"reset": 1}),
        {"stop-tap": "under the sink – “left”"},
        Address(("Flat 2", street), town, postcode),
        people or (anna(), Person("Bram Oakes", "landlord", ("+442079460018",))),
        (Alarm("smoke", "hall", date(2031, 5, 1)), Alarm("co", "beside the boiler")),
    )


def put_over(register: Register, record: Record, by: str) -> None:
    """Write a record over whatever the register has under its key, without a look that would leave a trace."""
    built = register.change(record.key, lambda _: Built(record, ()), by)
    assert built is not None
    assert built.mistakes == ()

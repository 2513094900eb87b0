from dataclasses import replace
from datetime import date

from kb.handover.known import STAYS, opening_of, told_of
from kb.register import Alarm, Appliance
from tests.kb.handover.records import FORM, TODAY
from tests.registers import record

HOME = replace(record(), alarms=(Alarm("co", "beside the boiler", date(2031, 5, 1)), Alarm("co", "loft")))


def test_everything_that_the_register_knows_and_a_record_asks_is_told() -> None:
    told = told_of(FORM, HOME)
    assert told == {
        "range": "marlpit-c",
        "appliance": "Marlpit C 28",
        "serial": "MC-000123",
        "fuel": "natural-gas",
        "system": "sealed",
        "fitted": "2023-10-04",
        "warranty-ends": "2030-10-04",
        "low": "0.7",
        "aim": "1.1",
        "high": "1.9",
        "stop-tap-place": "under the sink – “left”",
        "next-service": "2026-10-04",
        "co-alarm-place": "beside the boiler",
        "co-alarm-ends": "2031-05-01",
        "tenure": "rent",
    }


def test_nothing_about_people_is_told() -> None:
    told = " ".join(told_of(FORM, record()).values())
    assert not any(word in told for word in ("Anna", "Whitfield", "Mill Lane", "960123"))


def test_a_service_that_was_due_is_not_filled_in_as_the_next_one() -> None:
    opening = opening_of(FORM, HOME, TODAY)
    assert opening.beside == {"next-service": "2026-10-04"}
    later = replace(HOME, appliances=(replace(HOME.appliances[0], next_service=date(2027, 10, 4)),))
    assert opening_of(FORM, later, TODAY).filled["next-service"] == "2027-10-04"


def test_of_another_appliance_only_what_the_home_keeps_is_filled_in() -> None:
    opening = opening_of(FORM, HOME, TODAY, another=True)
    assert set(opening.filled) == {"stop-tap-place", "co-alarm-place", "co-alarm-ends", "tenure"}
    assert all(FORM.by_id[id].sets in STAYS for id in opening.filled)
    assert opening.filled.keys() | opening.beside.keys() == told_of(FORM, HOME).keys()


def test_nothing_that_was_found_on_the_spot_is_ever_filled_in() -> None:
    measured = {field.id for field in FORM.by_id.values() if field.kind.value == "figure"} - {"low", "aim", "high"}
    looked_at = {field.id for field in FORM.by_id.values() if field.kind.value in ("yes-no", "ticks")}
    assert not (measured | looked_at) & told_of(FORM, HOME).keys()


def test_a_home_without_marks_of_its_own_has_none_told() -> None:
    told = told_of(FORM, replace(HOME, appliances=(Appliance("Any 20"),), known=type(HOME.known)()))
    assert not {"low", "aim", "high", "serial", "fitted"} & told.keys()

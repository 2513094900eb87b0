from dataclasses import replace
from datetime import date

import pytest

from kb.facts import GaugeMarks
from kb.register import Need, Person, Record, build, read_day, written
from kb.register.mistakes import Mistake
from tests.registers import FIRST, TODAY, record


def built(fields, before=None):
    return build(fields, before or record(), "GB", TODAY)


def fields_wrong(fields, before=None):
    return [mistake.field for mistake in built(fields, before).mistakes]


def test_a_record_is_built_again_from_its_own_fields():
    again = built(written(record(), "GB"), Record(FIRST, ()))
    assert again.mistakes == ()
    assert again.record == record()


def test_what_is_not_written_stays_as_it_was():
    after = built({"address.town": "Wickenthorpe"}).record
    assert after == replace(record(), address=replace(record().address, town="Wickenthorpe"))


def test_what_is_emptied_is_gone():
    after = built({"facts.tenure": "", "places.stop-tap": "", "appliances[0].plate": "Marlpit C 28"}).record
    assert (after.known.facts, after.places) == ({"system": "sealed"}, {})
    assert [appliance.plate for appliance in after.appliances] == ["Marlpit C 28"]


@pytest.mark.parametrize("word", ["rent", "RENT", "rented"])
def test_a_closed_list_takes_its_short_names_and_its_plain_words(word):
    assert built({"facts.tenure": word}).record.known.facts["tenure"] == "rent"


@pytest.mark.parametrize("typed", ["2026-11-05", "5/11/2026", "05.11.2026"])
def test_a_day_is_read_in_the_ways_it_is_written_here(typed):
    assert read_day(typed) == date(2026, 11, 5)


@pytest.mark.parametrize("typed", ["5/11/26", "2026-13-01", "31/02/2026", "soon", "0026-01-01", "٢٠٢٦-01-01x"])
def test_what_is_no_day_says_how_one_is_written(typed):
    assert isinstance(read_day(typed), Mistake)


def test_every_mistake_is_told_at_the_field_where_it_was_written():
    fields = {
        "address.postcode": "nowhere",
        "marks.low": "2.0",
        "people[1].name": "Cleo",
        "people[1].phones[1]": "12",
        "people[3].name": "Dev",
        "people[3].needs[2].kind": "over-65",
        "people[3].needs[2].consented": "2027-01-01",
        "alarms[4].place": "hall",
        "appliances[2].fitted": "yesterday",
    }
    assert sorted(fields_wrong(fields)) == sorted(
        [
            "address.postcode",
            "marks.low",
            "people[1].phones[1]",
            "people[3].needs[2].consented",
            "alarms[4].kind",
            "appliances[2].fitted",
            "appliances[2].plate",
        ]
    )


def test_a_need_wants_the_day_it_was_agreed_to():
    assert fields_wrong({"people[0].name": "Cleo", "people[0].needs[0].kind": "power"}) == [
        "people[0].needs[0].consented"
    ]


def test_people_keep_their_number_and_what_is_not_written_of_them():
    before = replace(record(), people=(replace(record().people[0], id=7), Person("Bram Oakes", "landlord")))
    after = built({"people[0].name": "anna whitfield", "people[0].phones[0]": "01632 960999"}, before).record
    [anna] = after.people
    assert (anna.id, anna.phones, anna.needs) == (7, ("+441632960999",), before.people[0].needs)


def test_two_people_of_one_name_are_not_taken_for_one():
    before = replace(record(), people=(Person("Jo Pell", id=1), Person("Jo Pell", id=2)))
    after = built({"people[0].name": "Jo Pell", "people[1].name": "Jo Pell", "people[2].name": "Jo Pell"}, before)
    assert [person.id for person in after.record.people] == [1, 2, None]


def test_marks_take_a_decimal_comma():
    assert built({"marks.low": "0,7", "marks.aim": "1,0", "marks.high": "1.5"}).record.known.marks == GaugeMarks(
        0.7, 1.0, 1.5
    )


def test_a_need_is_read_whole():
    fields = {"people[0].name": "Cleo", "people[0].needs[0].kind": "Power", "people[0].needs[0].consented": "1/2/2026"}
    assert built(fields).record.people[0].needs == (Need("power", date(2026, 2, 1)),)

"""What falls due as a calendar and the firm as an address card, each read back by another library (vobject)."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest
import vobject

from kb.calendar import Coming, address_card, calendar, outward
from kb.register import Due
from tests.builders import firm

NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)
SERVICE = Due("service", "KEY", 7, date(2026, 12, 24), "Marlpit; C, 28", ("14 Mill Lane",), "Ashcombe", "ZZ99 3WZ")
ALARM = Due(
    "alarm", "KEY", 7, date(2026, 12, 24), "smoke alarm, Anna's room", ("14 Mill Lane",), "Ashcombe", "ZZ99 3WZ"
)


def written(*found: Due) -> bytes:
    return calendar(found, firm(), NOON, lambda home: f"https://heating.example/staff/homes/{home}")


def events(*found: Due) -> list:
    return list(vobject.readOne(written(*found).decode()).vevent_list)


def test_a_calendar_is_read_back_by_another_library():
    [event] = events(SERVICE)
    assert event.summary.value == "Service due: Marlpit; C, 28"
    assert event.dtstart.value == date(2026, 12, 24)
    assert event.dtend.value == date(2026, 12, 25)
    assert event.url.value == "https://heating.example/staff/homes/7"
    assert event.dtstamp.value == NOON
    assert event.transp.value == "TRANSPARENT"


def test_nothing_in_a_calendar_tells_who_lives_where():
    text = written(SERVICE, ALARM).decode()
    assert not any(each in text for each in ("KEY", "Mill Lane", "3WZ", "Anna"))
    assert [event.location.value for event in events(SERVICE, ALARM)] == ["Ashcombe ZZ99"] * 2


def test_every_event_has_a_name_of_its_own_that_stays():
    names = [event.uid.value for event in events(SERVICE, ALARM, ALARM)]
    assert len(set(names)) == 3
    assert names == [event.uid.value for event in events(SERVICE, ALARM, ALARM)]


def test_a_calendar_has_the_form_of_its_standard():
    # RFC 5545, 3.1: lines end in CRLF and have at most 75 octets; 3.6: PRODID and VERSION are required.
    lines = written(Due("service", "KEY", 7, date(2027, 1, 1), "Ä" * 100)).split(b"\r\n")
    assert lines[-1] == b""
    assert max(len(line) for line in lines) <= 75
    assert {b"VERSION:2.0", b"METHOD:PUBLISH"} <= set(lines)


@pytest.mark.parametrize(("postcode", "first"), [("ZZ99 3WZ", "ZZ99"), ("D02X285", ""), ("", "")])
def test_only_the_first_part_of_a_postcode_is_given(postcode, first):
    assert outward(postcode) == first


def test_the_firm_is_read_back_by_another_library():
    card = vobject.readOne(address_card(firm(name="Böiler; Bath, & Sons", town="Anytown"), "0800 111 999").decode())
    assert card.version.value == "4.0"
    assert card.fn.value == "Böiler; Bath, & Sons"
    assert [tel.value for tel in card.tel_list] == ["tel:+441632960123", "tel:+447700900123"]
    assert [tel.params["PREF"] for tel in card.tel_list] == [["1"], ["2"]]
    # RFC 6350, 6.4.1, writes several kinds in one quoted list, which vobject leaves as it is.
    assert card.tel_list[1].params["TYPE"] == ["work,cell,text"]
    assert card.url.value == "https://heating.example"
    assert card.adr.value.city == "Anytown"
    assert "ring 0800 111 999 first" in card.note.value


def test_a_card_has_the_form_of_its_standard():
    # RFC 6350, 3.2: lines end in CRLF and should have at most 75 octets; 6.7.9: VERSION comes right after BEGIN.
    lines = address_card(firm(), "0800 111 999").split(b"\r\n")
    assert lines[:2] == [b"BEGIN:VCARD", b"VERSION:4.0"]
    assert lines[-2:] == [b"END:VCARD", b""]
    assert max(len(line) for line in lines) <= 75


def test_a_month_of_many_homes_is_written_quickly_enough():
    many = [Due("service", "KEY", n, date(2027, 1, 1) + timedelta(days=n % 300), "C 28") for n in range(500)]
    assert written(*many).count(b"BEGIN:VEVENT") == 500


VISIT = Coming(
    "c-1", "Marlpit C 28", NOON, NOON + timedelta(hours=4), "Ashcombe", "ZZ99 3WZ", "https://heating.example/b"
)


def test_a_visit_stands_at_its_time_and_says_no_more_than_the_rest():
    text = calendar((), firm(), NOON, lambda home: "", [VISIT]).decode()
    [event] = vobject.readOne(text).vevent_list
    assert (event.dtstart.value, event.dtend.value) == (NOON, NOON + timedelta(hours=4))
    assert (event.summary.value, event.location.value) == ("Visit: Marlpit C 28", "Ashcombe ZZ99")
    assert event.url.value == "https://heating.example/b"
    assert "3WZ" not in text


def test_a_visit_that_is_moved_keeps_its_name():
    def name(visit: Coming) -> str:
        text = calendar((), firm(), NOON, lambda home: "", [visit]).decode()
        return vobject.readOne(text).vevent_list[0].uid.value

    assert name(VISIT) == name(replace(VISIT, begins=NOON - timedelta(days=1)))

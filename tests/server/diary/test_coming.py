import re
from datetime import UTC, datetime

import vobject

from kb.register import Address, Appliance, Person, Record
from server.site import Site
from tests.server.conftest import SEALED
from tests.server.diary.conftest import booked, signed_in


def feed(site: Site, name: str) -> str:
    with signed_in(site, name) as client:
        found = re.search(r'name="csrf" value="(\w+)"', client.get("/staff/calendar").text)
        assert found
        made = client.post("/staff/calendar", data={"csrf": found[1]}).text
        address = re.search(r"https://heating\.example(/calendar/[\w-]+\.ics)", made)
        assert address
        return client.get(address[1]).text


def test_an_engineers_calendar_has_their_own_visits_and_nothing_that_tells_who_lives_where(staffed):
    person = Person("Robin Marsh", phones=("+441632960111",))
    record = Record(SEALED.key, (Appliance("Marlpit C 28", "marlpit-c"),), SEALED.known, SEALED.places,
                    Address(("4 Any Street",), "Anytown", "ZZ9 9ZZ"), (person,))  # fmt: skip
    assert staffed.store.register.put(record, "office", staffed.store.register.things(SEALED.key)) == ()
    booked(staffed)
    before = len(staffed.store.register.trail(SEALED.key))
    text = feed(staffed, "Robin")
    [event] = vobject.readOne(text).vevent_list
    assert event.summary.value == "Visit: Marlpit C 28"
    assert event.dtstart.value == datetime(2026, 11, 26, 8, tzinfo=UTC)
    assert event.location.value == "Anytown ZZ9"
    for never in ("Marsh", "Any Street", "9ZZ\r", SEALED.key, "960111", "dog in the yard", "clicks"):
        assert never not in text
    # Reading nothing about people leaves no trace.
    assert len(staffed.store.register.trail(SEALED.key)) == before


def test_nobody_elses_visits_and_no_office_has_them(staffed):
    booked(staffed)
    assert "Visit:" not in feed(staffed, "Sam")
    assert "Visit:" not in feed(staffed, "Ash")

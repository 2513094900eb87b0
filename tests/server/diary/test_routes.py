import re
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from kb.appointment import Window
from kb.register import Address, Appliance, Record
from kb.visit.job import Closed, Job, Return
from tests.booking import BEGAN
from tests.server.conftest import SEALED, WEDNESDAY_NOON
from tests.server.diary.conftest import TOMORROW, booked, signed_in
from tests.server.html import Page

MONDAY = {"day": "2026-11-30", "opens": "8:00", "closes": "12:00", "engineer": "Sam"}


def hidden(text: str) -> dict[str, str]:
    found = re.search(r'name="csrf" value="(\w+)"><input type="hidden" name="id" value="(\w+)"', text)
    assert found
    return {"csrf": found[1], "id": found[2]}


def moved(client, address: str, **fields: str):
    return client.post(address, data={**hidden(client.get(address).text), **fields})


@pytest.mark.parametrize(("name", "room"), [("Wren", "/desk"), ("Ash", "/office")])
def test_desk_and_office_see_what_is_to_be_made_and_move_it(staffed, name, room):
    booked(staffed)
    with signed_in(staffed, name) as client:
        words = Page(client.get(f"{room}/visits").text).words
        assert "Thursday 26 November, 8:00 to 12:00 Robin" in words
        answer = moved(client, f"{room}/visits/c-call-1", **MONDAY, why="the part comes on Monday")
        assert answer.headers["location"] == f"{room}/visits"
        words = Page(client.get(f"{room}/visits").text).words
        assert "Monday 30 November, 8:00 to 12:00 Sam Later than the pace wanted: the part comes on Monday" in words
        trail = Page(client.get(f"{room}/visits/c-call-1").text).words
        assert "Wren, Wednesday 25 November 2026, 08:00 Thursday 26 November, 8:00 to 12:00: Robin." in trail
        assert f"{name}, Wednesday 25 November 2026, 12:00 Monday 30 November, 8:00 to 12:00: Sam." in trail


def test_the_engineers_room_and_nobody_else_comes_in(staffed, client):
    booked(staffed)
    assert client.get("/office/visits").headers["location"].startswith("/staff/sign-in")
    with signed_in(staffed, "Robin") as robin:
        assert robin.get("/office/visits").status_code == 403
        assert robin.get("/desk/visits").status_code == 403


def test_later_than_the_pace_needs_a_reason_here_too(office, staffed):
    booked(staffed)
    answer = moved(office, "/office/visits/c-call-1", **MONDAY, why="")
    assert answer.status_code == 422
    assert "write why it may be later" in Page(answer.text).words
    assert "2026-11-30" in answer.text


def test_the_note_tells_who_moved_it(staffed):
    booked(staffed)
    with signed_in(staffed, "Wren") as desk:
        moved(desk, "/desk/visits/c-call-1", window="2026-11-25 720 960", engineer="Sam")
        words = Page(desk.get("/desk/call-1/note").text).words
    assert "Agreed Thursday 26 November, 8:00 to 12:00: Robin" in words
    assert "Moved Wednesday 25 November, 12:00 to 16:00: Sam Moved by Wren" in words


def test_the_soonest_pace_comes_first_then_the_sooner_window(office, staffed):
    later = replace(TOMORROW, window=Window(date(2026, 11, 27), 480, 720))
    booked(staffed, later, "call-1")
    booked(staffed, TOMORROW, "call-2")
    staffed.store.jobs.begin(Job("routine", "noise", BEGAN, "Robin", SEALED.key))
    found = re.findall(r'href="/office/visits/([\w-]+)"', office.get("/office/visits").text)
    assert found == ["c-call-2", "c-call-1", "j-routine"]


def test_what_is_overdue_says_so_in_words(office, staffed):
    booked(staffed, None, "call-1", at=WEDNESDAY_NOON - timedelta(days=20))
    booked(staffed, replace(TOMORROW, window=Window(date(2026, 11, 25), 480, 660)), "call-2")
    booked(staffed, TOMORROW, "call-3")
    words = Page(office.get("/office/visits").text).words
    assert "2 are overdue." in words
    assert "Overdue: the pace wanted somebody there by" in words
    assert "Wednesday 25 November, 8:00 to 11:00 Robin Overdue: the agreed time has passed" in words


def test_where_it_is_stands_there_and_who_looked_stands_in_the_trail(office, staffed):
    record = Record(SEALED.key, (Appliance("Marlpit C 28", "marlpit-c"),), SEALED.known, SEALED.places,
                    Address(("4 Any Street",), "Anytown", "ZZ9 9ZZ"))  # fmt: skip
    assert staffed.store.register.put(record, "office", staffed.store.register.things(SEALED.key)) == ()
    booked(staffed)
    assert "4 Any Street, Anytown, ZZ9 9ZZ" in Page(office.get("/office/visits").text).words
    assert ("Ash", "found") in [(each.by, each.did.value) for each in staffed.store.register.trail(SEALED.key)]


def test_a_second_visit_says_which_part_and_keeps_its_own_time(office, staffed):
    booked(staffed, at=WEDNESDAY_NOON - timedelta(days=20))
    staffed.store.jobs.begin(Job("first", "ignition-failure", BEGAN, "Robin", SEALED.key, "call-1"))
    staffed.store.jobs.close("first", Closed(WEDNESDAY_NOON, "Robin", "Lead", "waiting", "no"), {})
    why = Return("first", "call-1", "ignition lead", "office", date(2026, 11, 28))
    staffed.store.jobs.begin(Job("second", "ignition-failure", BEGAN, "", SEALED.key, returns=why))
    words = Page(office.get("/office/visits").text).words
    assert "Second visit, with: ignition lead. The office orders it, there by 28 November" in words
    assert "Overdue" not in words
    assert moved(office, "/office/visits/j-second", **MONDAY, why="").status_code == 303
    assert staffed.store.jobs.job("second").by == "Sam"


def test_what_is_over_or_never_was_is_not_found(office, staffed):
    assert office.get("/office/visits/c-call-1").status_code == 404
    assert office.get("/office/visits/anything").status_code == 404


def test_a_form_that_is_sent_twice_moves_once(office, staffed):
    booked(staffed)
    sent = {**hidden(office.get("/office/visits/c-call-1").text), "window": "2026-11-25 720 960", "engineer": ""}
    for _ in range(2):
        assert office.post("/office/visits/c-call-1", data=sent).status_code == 303
    (visit,) = staffed.store.appointments.to_visit()
    assert len(staffed.store.appointments.trail(visit)) == 2
    assert visit.agreed.at == datetime(2026, 11, 25, 12, tzinfo=UTC)

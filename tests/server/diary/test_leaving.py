import re

import pytest

from kb.appointment import CAUTION
from kb.desk.events import Did, Event
from kb.handover.record import Entry
from kb.visit.job import Job
from tests.booking import BEGAN
from tests.server.conftest import SEALED, WEDNESDAY_NOON
from tests.server.diary.conftest import booked, signed_in
from tests.server.diary.test_coming import feed
from tests.server.diary.test_routes import hidden
from tests.server.html import Page

VISIT = "visits/c-call-1"


def off(client, room="/office", visit=VISIT, **fields):
    page = client.get(f"{room}/{visit}").text
    return client.post(f"{room}/{visit}/off", data={**hidden(page), **fields})


def sooner(site, **said):
    """Let the pace of the call be sooner."""
    site.store.calls.add("call-1", Event("pace", BEGAN, "Wren", Did.PACE, {"to": "make-safe", "why": "", **said}))


@pytest.mark.parametrize(("name", "room"), [("Wren", "/desk"), ("Ash", "/office")])
def test_desk_and_office_call_a_visit_off(staffed, name, room):
    booked(staffed)
    with signed_in(staffed, name) as client:
        assert "danger" not in client.get(f"{room}/{VISIT}").text
        assert off(client, room, reason="works", words="rang at ten").headers["location"] == f"{room}/visits"
        assert "No visit is to be made." in client.get(f"{room}/visits").text
        assert client.get(f"{room}/{VISIT}").status_code == 404
        again = client.post(f"{room}/{VISIT}/off", data={**hidden_of(client), "reason": "works"})
        assert again.headers["location"] == f"{room}/visits"


def hidden_of(client):
    found = re.search(r'name="csrf" value="(\w+)"', client.get("/staff/calendar").text)
    assert found
    return {"csrf": found[1], "id": "another"}


def test_the_calls_note_says_who_called_it_off_when_and_why(staffed):
    booked(staffed)
    with signed_in(staffed, "Wren") as desk:
        off(desk, "/desk", reason="works", words="rang at ten")
        words = Page(desk.get("/desk/call-1/note").text).words
    assert "Not made Called off: it works again: not needed. rang at ten" in words
    assert "Noted by Wren, Wednesday 25 November 2026, 12:00" in words


def test_it_leaves_the_engineers_calendar(staffed, office):
    booked(staffed)
    assert "Visit:" in feed(staffed, "Robin")
    off(office, reason="nobody")
    assert "Visit:" not in feed(staffed, "Robin")


@pytest.mark.parametrize("reason", ["", "bored"])
def test_without_a_reason_it_stands(staffed, office, reason):
    booked(staffed)
    assert off(office, reason=reason).status_code == 422
    assert staffed.store.appointments.one("c-call-1")


def test_one_whose_pace_is_make_safe_wants_words_and_the_page_says_the_caution(staffed, office):
    booked(staffed)
    sooner(staffed)
    assert CAUTION in office.get(f"/office/{VISIT}").text
    refused = off(office, reason="nobody", words="rang")
    assert refused.status_code == 422
    assert "Write in a few words who was tried" in refused.text
    assert 'value="rang"' in refused.text
    assert staffed.store.appointments.one("c-call-1")
    assert off(office, reason="nobody", words="the landlord was in and smells nothing").status_code == 303
    assert staffed.store.appointments.to_visit() == ()


@pytest.mark.parametrize(
    "event",
    [
        Event("yes", BEGAN, "Wren", Did.ASKED, {"step": "do-you-smell-gas", "answer": "yes"}),
        Event("over", BEGAN, "Wren", Did.CLOSED, {"how": "emergency"}),
        # A fault whose article is gone: the call can't be read any more.
        Event("gone", BEGAN, "Wren", Did.BEGAN, {"article": "no-such-article", "trail": ""}),
    ],
)
def test_one_whose_call_came_to_danger_does_too(staffed, office, event):
    booked(staffed)
    staffed.store.calls.add("call-1", event)
    assert CAUTION in office.get(f"/office/{VISIT}").text
    assert off(office, reason="works").status_code == 422


def test_a_visit_without_a_call_is_called_off_as_well(staffed, office):
    staffed.store.jobs.begin(Job("job-1", "noise", WEDNESDAY_NOON, "Robin", SEALED.key))
    assert off(office, visit="visits/j-job-1", reason="slip").status_code == 303
    assert staffed.store.appointments.to_visit() == ()


def test_where_something_unsafe_was_found_nobody_calls_it_off(staffed, office):
    staffed.store.jobs.begin(Job("job-1", "noise", WEDNESDAY_NOON, "Robin", SEALED.key))
    csrf_and_id = hidden(office.get("/office/visits/j-job-1").text)
    staffed.store.jobs.save("job-1", Entry("e1", 1, "unsafe", "yes", "Robin", WEDNESDAY_NOON))
    page = office.get("/office/visits/j-job-1").text
    assert "can&#39;t be called off" in page
    assert "Call the visit off" not in page
    sent = office.post(
        "/office/visits/j-job-1/off", data={**csrf_and_id, "reason": "works", "words": "all is well now"}
    )
    assert sent.status_code == 422
    assert staffed.store.appointments.one("j-job-1")


def test_only_the_rooms_people_call_off(staffed, robin):
    booked(staffed)
    assert robin.post(f"/office/{VISIT}/off", data={**hidden_of(robin), "reason": "works"}).status_code == 403
    assert staffed.store.appointments.one("c-call-1")

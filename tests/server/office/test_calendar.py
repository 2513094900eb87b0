"""The secret address of somebody's calendar."""

import re
from dataclasses import replace
from datetime import date

import vobject

from kb.staff import Account, Role
from tests.registers import FIRST
from tests.server.conftest import WEDNESDAY_NOON


def address(office) -> str:
    found = re.search(r"https://heating\.example(/calendar/[\w-]+\.ics)", office.post("/staff/calendar").text)
    assert found
    return found[1]


def plan(office) -> None:
    record = office.record()
    first = replace(record.appliances[0], next_service=date(2027, 2, 1))
    office.site.store.register.put(replace(record, appliances=(first,)), "test", record)


def test_a_calendar_is_read_without_signing_in_by_its_address_alone(office):
    plan(office)
    feed = address(office)
    office.client.cookies.clear()
    sent = office.get(feed)
    assert sent.headers["content-type"] == "text/calendar; charset=utf-8"
    assert sent.headers["cache-control"] == "no-store"
    [event] = vobject.readOne(sent.text).vevent_list
    assert event.summary.value == "Service due: Marlpit C 30"
    assert FIRST not in sent.text
    assert "Mill Lane" not in sent.text


def test_a_new_address_ends_the_old_one_and_stopping_ends_it_for_good(office):
    first = address(office)
    second = address(office)
    assert (office.get(first).status_code, office.get(second).status_code) == (404, 200)
    office.post("/staff/calendar/stop")
    assert office.get(second).status_code == 404
    assert "You have no address yet" in office.get("/staff/calendar").text


def test_an_address_is_shown_once_and_not_kept(office):
    secret = address(office).removeprefix("/calendar/").removesuffix(".ics")
    page = office.get("/staff/calendar").text
    assert secret not in page
    assert "made on 25 November 2026" in page


def test_nobody_guesses_an_address(office):
    assert {office.get(f"/calendar/{each}.ics").status_code for each in ("x", "x" * 43, "x" * 5000)} == {404}


def test_an_entry_leads_to_the_home_for_those_who_may_see_it(office, site, hash_of_password):
    plan(office)
    [event] = vobject.readOne(office.get(address(office)).text).vevent_list
    way = event.url.value.removeprefix("https://heating.example")
    assert office.get(way).headers["location"] == f"/office/homes/{FIRST}"
    assert office.get("/staff/homes/99999").status_code == 404
    site.store.staff.add(Account("Robin", frozenset({Role.ENGINEER})), hash_of_password, WEDNESDAY_NOON)
    office.sign_in("Robin")
    assert office.get(way).headers["location"] == f"/h/{FIRST}"
    office.client.cookies.clear()
    assert office.get(way).headers["location"].startswith("/staff/sign-in")

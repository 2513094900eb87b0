"""The list of calls whose danger questions took longer than a minute."""

from dataclasses import fields, replace
from datetime import timedelta

import pytest
from starlette.testclient import TestClient

from kb.desk.danger import questions
from kb.desk.events import Did, Event
from kb.staff import Account, Role
from server.app import create_app
from server.office.figure_pages import SlowPage
from server.settings import NOBODY_TOLD
from server.site import Site
from server.staff.passwords import hashed
from tests.server.conftest import SEALED, WEDNESDAY_NOON
from tests.server.html import Page
from tests.server.web.test_pages import used

PASSWORD = "kettle lamp orbit moss"


@pytest.fixture
def office(site: Site, client: TestClient) -> TestClient:
    site.store.staff.add(Account("Ola", frozenset({Role.OFFICE})), hashed(PASSWORD), WEDNESDAY_NOON)
    client.post("/staff/sign-in", data={"name": "Ola", "password": PASSWORD})
    return client


def close_a_call(site: Site, id: str, *after: float) -> None:
    """A call whose danger questions were answered with so many seconds between them."""
    at = WEDNESDAY_NOON
    site.store.calls.begin(id, "Wren", at)
    for number, (step, seconds) in enumerate(zip(questions(site.library), after, strict=False)):
        at += timedelta(seconds=seconds)
        said = {"step": step.anchor, "answer": "no"}
        site.store.calls.add(id, Event(f"{id}{number}", at, "Wren", Did.ASKED, said))
    caller = {"name": "Robin Marsh", "phone": "01632 960211"}
    site.store.calls.add(
        id,
        Event(f"{id}h", at, "Wren", Did.HOME, {"key": SEALED.key}),
        Event(f"{id}w", at, "Wren", Did.CALLER, caller),
        Event(f"{id}z", at + timedelta(minutes=2), "Wren", Did.CLOSED, {"how": "booked"}),
    )


def test_a_slow_call_stands_there_with_its_time_and_the_question_at_which_it_stuck(
    site: Site, office: TestClient
) -> None:
    close_a_call(site, "quick", *[3] * 8)
    close_a_call(site, "slow", 3, 3, 90, *[3] * 5)
    page = Page(office.get("/office/figures/slow").text)
    question = questions(site.library)[2].title
    assert page.words.count("25 November 2026, 12:00") == 1
    assert f"111{question}90" in page.words
    assert f"1 call: {question}" in page.words


def test_it_is_a_file_too_and_neither_says_who_rang(site: Site, office: TestClient) -> None:
    close_a_call(site, "slow", 3, 3, 90, *[3] * 5)
    file = office.get("/office/figures/slow.csv")
    assert file.headers["content-type"] == "text/csv; charset=utf-8"
    assert file.text.splitlines()[1].startswith("2026-11-25 12:00,111,")
    for text in (file.text, office.get("/office/figures/slow").text):
        assert not [each for each in ("Robin", "960211", SEALED.key, "Wren") if each in text]


def test_the_share_leads_to_its_list(site: Site, office: TestClient) -> None:
    close_a_call(site, "slow", 3, 3, 90, *[3] * 5)
    page = Page(office.get("/office/figures").text)
    assert page.links["The calls that took longer"] == "/office/figures/slow?period=12-weeks"


def test_nothing_slow_is_said_so(office: TestClient) -> None:
    assert "In every call of this time" in office.get("/office/figures/slow").text
    assert office.get("/office/figures/slow?period=ever").status_code == 404


def test_the_template_shows_exactly_what_the_page_declares() -> None:
    assert used(SlowPage.template) == {field.name for field in fields(SlowPage)}


def test_the_office_says_so_where_nobody_is_told_of_requests(site: Site, office: TestClient) -> None:
    assert NOBODY_TOLD not in Page(office.get("/office").text).words
    with TestClient(create_app(replace(site, unheard=True)), cookies=office.cookies) as client:
        assert NOBODY_TOLD in Page(client.get("/office").text).words

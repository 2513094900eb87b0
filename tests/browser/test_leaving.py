"""An engineer at a closed door: one tap, with a signal or without, and what may be about danger is not left lightly."""

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from kb.appointment import NotMade
from kb.desk.events import Did, Event
from server.store import Store
from tests.browser.recording import signed_in
from tests.browser.test_pages import look
from tests.browser.visiting import KEY, booked_site, seek, taken
from tests.processes import Server

NOBODY = "Nobody is in: agree another time"


@pytest.fixture
def site(tmp_path: Path) -> Iterator[Server]:
    with booked_site(tmp_path) as server:
        yield server


def trail(site: Server) -> list[NotMade]:
    with Store(site.database) as store:
        (job,) = store.jobs.of_home(KEY)
        return [each for each in store.appointments.trail_of(job) if isinstance(each, NotMade)]


def graver(site: Server) -> None:
    with Store(site.database) as store:
        at = datetime.now(UTC) - timedelta(hours=1)
        store.calls.add("call-1", Event("grave", at, "Wren", Did.PACE, {"to": "make-safe", "why": ""}))


def call_off(page: Page, reason: str, words: str) -> None:
    page.get_by_text("Call the visit off").first.click()
    page.get_by_label("Why nobody goes").select_option(label=reason)
    page.locator("#gone-words").fill(words)
    page.get_by_role("button", name="Call the visit off").click()


def test_one_tap_without_a_signal_gives_the_visit_back_once_there_is_one(browser: Browser, site: Server) -> None:
    context, page = signed_in(browser, site.address)
    page.goto(f"{taken(page)}/site")
    page.locator("#record[data-at-hand]").wait_for()
    context.set_offline(True)
    page.get_by_role("button", name=NOBODY).click()
    expect(page.get_by_text("Noted on this phone")).to_be_visible()
    page.reload()
    expect(page.get_by_role("button", name=NOBODY)).to_be_hidden()
    assert trail(site) == []
    context.set_offline(False)
    page.wait_for_url("**/engineer/visits")
    expect(page.get_by_text("Nobody was in: another time is to be agreed.")).to_be_visible()
    assert page.get_by_role("button", name="Take").count() == 1
    assert [each.what for each in trail(site)] == ["again"]
    context.close()


@pytest.mark.parametrize("script", [True, False])
def test_what_may_be_about_danger_wants_words(browser: Browser, site: Server, script: bool) -> None:
    graver(site)
    context, page = signed_in(browser, site.address, java_script_enabled=script)
    page.goto("/engineer/visits")
    page.get_by_role("button", name="Take:").click()
    page.get_by_role("link", name="On site").click()
    expect(page.get_by_text("Danger does not go away because nobody opens the door.")).to_be_visible()
    call_off(page, "Nobody was in", "rang")
    assert trail(site) == []
    page.locator("#gone-words").fill("the landlord is in and smells nothing")
    page.get_by_role("button", name="Call the visit off").click()
    page.wait_for_url("**/engineer/visits")
    assert [(each.what, each.words) for each in trail(site)] == [("off", "the landlord is in and smells nothing")]
    context.close()


@pytest.mark.parametrize("script", [True, False])
def test_back_and_reload_after_a_search_show_the_homes_again(browser: Browser, site: Server, script: bool) -> None:
    context, page = signed_in(browser, site.address, java_script_enabled=script)
    for room in ("/engineer", "/engineer/visits"):
        page.goto(room)
        seek(page, "marlpit")
        there = page.url
        assert "marlpit" not in there
        shown = page.get_by_role("button", name="Begin: Marlpit")
        expect(shown.first).to_be_visible()
        page.reload()
        expect(shown.first).to_be_visible()
        page.goto("/engineer/sums")
        page.go_back()
        assert page.url == there
        expect(shown.first).to_be_visible()
    context.close()


@pytest.mark.parametrize("width", [320, 360, 1280])
def test_the_pages_of_leaving_are_accessible_and_fit(browser: Browser, site: Server, width: int) -> None:
    graver(site)
    context, page = signed_in(browser, site.address, width, bypass_csp=True)
    page.goto(f"{taken(page)}/site")
    page.get_by_text("Call the visit off").first.click()
    look(page, page.url)
    page.get_by_role("button", name=NOBODY).click()
    page.wait_for_url("**/engineer/visits")
    look(page, page.url)
    context.close()

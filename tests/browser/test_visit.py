"""An engineer takes a booked visit, reads the brief, loses the signal, works, closes, and finds it sent once."""

from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from kb.home import Home
from server.store import Store
from tests.booking import WORDS
from tests.browser.recording import signed_in
from tests.browser.test_pages import look_both
from tests.browser.visiting import KEY, booked_site, check, close, fill_plain, jobs, seek, taken, until_closed
from tests.processes import Server


@pytest.fixture
def site(tmp_path: Path) -> Iterator[Server]:
    with booked_site(tmp_path) as server:
        yield server


def test_a_visit_from_the_brief_to_the_closed_job_without_a_signal(browser: Browser, site: Server) -> None:
    context, page = signed_in(browser, site.address)
    brief = taken(page)
    assert WORDS in page.locator(".brief").inner_text()
    context.set_offline(True)
    page.goto(brief)
    assert page.get_by_role("heading", name="Likely causes").count() == 1
    page.get_by_role("link", name="On site").click()
    page.get_by_role("button", name="I have arrived").click()
    page.get_by_role("button", name="None of these").click()
    check(page, "Arrival checks clear")
    check(page, "Fan runs, no spark")
    page.get_by_label("Figure").fill("1.2")
    page.get_by_label("Where", exact=True).fill("gauge, cold")
    page.get_by_role("button", name="Add the reading").click()
    fill_plain(page)
    close(page)
    page.get_by_text("Closed on this phone").wait_for()
    assert "waiting for a signal" in page.locator("#keeping").inner_text()
    assert jobs(site)[0].closed is None
    context.set_offline(False)
    page.wait_for_url(brief)
    assert page.get_by_role("heading", name="How it was closed").count() == 1
    (job,) = jobs(site)
    fields = [entry.field for entry in job.entries]
    assert [each for each in fields if each.startswith("answer:")] == [
        "answer:ignition-failure#begin-with-the-arrival-checks", "answer:ignition-failure#see-how-far-the-sequence-gets"
    ]  # fmt: skip
    assert fields[-1] == "close"
    assert len(fields) == len(set(fields))
    assert [entry.sequence for entry in job.entries] == sorted(entry.sequence for entry in job.entries)
    assert job.closed
    assert job.closed.outcome == "fixed"
    context.close()


def test_a_phone_that_died_offline_sends_what_it_kept_when_any_visit_is_opened(browser: Browser, site: Server) -> None:
    context, page = signed_in(browser, site.address)
    brief = taken(page)
    page.goto(f"{brief}/site")
    page.locator("#record[data-at-hand]").wait_for()
    context.set_offline(True)
    page.get_by_role("button", name="I have arrived").click()
    fill_plain(page)
    page.goto(f"{brief}/site")
    assert page.get_by_label("Fixed, or nothing was wrong").is_checked()
    close(page)
    page.get_by_text("Closed on this phone").wait_for()
    page.close()
    context.set_offline(False)
    page = context.new_page()
    page.goto("/engineer/visits")
    assert until_closed(site).closed
    context.close()


def test_an_answer_that_is_lost_on_the_way_closes_once(browser: Browser, site: Server) -> None:
    context, page = signed_in(browser, site.address)
    page.goto(f"{taken(page)}/site")
    sent: list[str] = []

    def lose_the_first(route) -> None:
        if "field=close" not in route.request.post_data:
            route.continue_()
            return
        sent.append(route.request.post_data)
        if len(sent) == 1:
            route.fetch()
            route.abort()
        else:
            route.continue_()

    page.route("**/entries", lose_the_first)
    page.get_by_role("button", name="I have arrived").click()
    fill_plain(page)
    close(page)
    page.get_by_role("heading", name="How it was closed").wait_for()
    assert len(sent) == 2
    assert sent[0] == sent[1]
    assert [entry.field for entry in jobs(site)[0].entries].count("close") == 1
    context.close()


def test_a_plain_job_takes_nine_taps_and_no_typing(browser: Browser, site: Server) -> None:
    context, page = signed_in(browser, site.address)
    page.goto(f"{taken(page)}/site")
    page.evaluate("window.taps = 0; addEventListener('click', (event) => { if (event.isTrusted) taps += 1; }, true)")
    page.get_by_role("button", name="I have arrived").click()
    fill_plain(page)
    assert page.get_by_label("Under warranty").is_checked()
    page.get_by_label("Chargeable", exact=True).check()
    close(page)
    assert page.evaluate("taps") == 9
    # A tap takes a person two to five seconds: under a minute.
    assert until_closed(site).closed
    context.close()


def test_all_that_is_missing_is_told_at_once_without_a_signal(browser: Browser, site: Server) -> None:
    context, page = signed_in(browser, site.address)
    page.goto(f"{taken(page)}/site")
    context.set_offline(True)
    close(page)
    assert page.locator("#lacking li").all_inner_texts() == [
        "Arrived", "What was it?", "How is it left?", "Is anything unsafe, or was it when you came?",
        "Could the phone have solved it?", "What did you show them?", "The card by the boiler",
    ]  # fmt: skip
    context.close()


def test_checks_that_end_unsafe_cannot_be_closed_as_safe_without_a_signal(browser: Browser, site: Server) -> None:
    context, page = signed_in(browser, site.address)
    page.goto(f"{taken(page)}/site")
    context.set_offline(True)
    page.get_by_role("button", name="I have arrived").click()
    page.get_by_role("button", name="None of these").click()
    check(page, "Arrival checks found something unsafe")
    fill_plain(page)
    close(page)
    assert "The checks ended at something unsafe" in page.locator("#lacking").inner_text()
    page.get_by_label("Something unsafe", exact=True).check()
    page.get_by_label("Immediately Dangerous", exact=True).check()
    found = date.today() - timedelta(days=1)
    page.get_by_label("Found on").fill(found.isoformat())
    page.get_by_label("Mains gas").check()
    page.locator('[data-field="riddor"]').get_by_label("Yes", exact=True).check()
    page.get_by_label("Turned off, with permission").check()
    due = found + timedelta(days=14)
    assert f"{due:%-d %B %Y}" in page.locator("#report").inner_text()
    close(page)
    assert "Turned off alone is for At Risk" in page.locator("#lacking").inner_text()
    context.close()


def test_signing_out_leaves_no_home_on_the_phone(browser: Browser, site: Server) -> None:
    context, page = signed_in(browser, site.address)
    taken(page)
    assert page.evaluate("caches.has('tundish-visits')")
    page.get_by_role("button", name="Sign out").click()
    page.wait_for_url("**/staff/**")
    assert not page.evaluate("caches.has('tundish-visits')")
    context.close()


def test_a_job_that_waits_and_a_card_that_must_change_close_without_a_signal(browser: Browser, site: Server) -> None:
    context, page = signed_in(browser, site.address)
    page.goto(f"{taken(page)}/site")
    page.locator("#record[data-at-hand]").wait_for()
    context.set_offline(True)
    page.get_by_role("button", name="I have arrived").click()
    fill_plain(page)
    page.get_by_label("Waiting for a part", exact=True).check()
    close(page)
    assert page.locator("#lacking li").all_inner_texts() == [
        "The part to order, by its generic name", "Who gets the part?", "The part is there by",
        "When does somebody come back?", "Why not at the first visit?",
    ]  # fmt: skip
    page.get_by_label("The part to order").fill("ignition lead")
    page.get_by_label("The office orders it").check()
    page.get_by_label("The part is there by").fill((date.today() + timedelta(days=3)).isoformat())
    page.get_by_label("The desk agrees a day").check()
    page.locator('[data-field="return-who"]').get_by_label("Whoever is free").check()
    page.locator('[data-field="not-first"]').get_by_label("The part", exact=True).check()
    page.get_by_label("Must change: print it anew").check()
    close(page)
    assert page.locator("#lacking li").all_inner_texts() == ["What is otherwise now, in a few words?"]
    page.get_by_label("What is otherwise now").fill("The stop tap moved")
    page.get_by_label("Where the stop tap is").fill("under the stairs")
    close(page)
    page.get_by_text("Closed on this phone").wait_for()
    context.set_offline(False)
    page.get_by_role("link", name="The second visit").wait_for()
    with Store(site.database) as store:
        home = store.home(KEY)
        assert isinstance(home, Home)
        assert home.places["stop-tap"] == "under the stairs"
        (left,) = store.appointments.to_visit()
        assert (left.owner, left.returns and left.returns.part) == ("", "ignition lead")
    page.get_by_role("link", name="The second visit").click()
    assert "ignition lead. The office orders it" in page.locator(".brief").inner_text()
    context.close()


def test_without_a_script_a_visit_is_walked_and_closed_by_its_buttons(browser: Browser, site: Server) -> None:
    context, page = signed_in(browser, site.address, java_script_enabled=False)
    page.goto("/engineer/visits")
    page.get_by_role("button", name="Take:").click()
    page.get_by_role("link", name="On site").click()
    page.get_by_role("button", name="I have arrived").click()
    page.get_by_role("button", name="None of these").click()
    check(page, "Arrival checks clear")
    assert page.get_by_role("heading", name="See how far the sequence gets").count() == 1
    close(page)
    assert "Still missing" in page.locator("#lacking").inner_text()
    fill_plain(page)
    close(page)
    assert page.get_by_role("heading", name="How it was closed").count() == 1
    context.close()


def test_every_page_of_a_visit_is_accessible_and_fits(browser: Browser, site: Server) -> None:
    context, page = signed_in(browser, site.address, bypass_csp=True)
    page.goto("/engineer/visits")
    seek(page, "marlpit")
    look_both(page, page.url)
    brief = taken(page)
    look_both(page, brief)
    page.goto(f"{brief}/site")
    look_both(page, page.url)
    page.get_by_role("button", name="None of these").click()
    check(page, "Arrival checks found something unsafe")
    page.get_by_label("Something unsafe", exact=True).check()
    page.get_by_label("Waiting for a part", exact=True).check()
    page.get_by_label("Must change: print it anew").check()
    page.get_by_text("Parts, travel and remarks").click()
    close(page)
    look_both(page, f"{page.url} with something missing")
    context.close()

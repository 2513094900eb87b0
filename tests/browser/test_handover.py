"""A handover record in a real browser: nothing typed is lost, nothing known is asked, every page fits."""

import time
from collections.abc import Iterator
from dataclasses import replace

import pytest
from playwright.sync_api import Browser

from kb.register import Built, Record
from server.store import Store
from tests.browser.effort import Count
from tests.browser.people import sign_in
from tests.browser.recording import begin, fill_section, go_on, saved, signed_in
from tests.browser.test_pages import look_both
from tests.browser.visiting import seek
from tests.kb.handover.records import COMBI
from tests.processes import NAME, Server, prepare

MISTAKES = {"gas-m3": "0.425", "flow-c": "42", "return-c": "60"}


@pytest.fixture(scope="module")
def database(tmp_path_factory: pytest.TempPathFactory) -> str:
    return f"sqlite:///{tmp_path_factory.mktemp('handover') / 'homes.db'}"


@pytest.fixture(scope="module")
def site(database: str) -> Iterator[str]:
    prepare(database)
    with Server(database) as server:
        yield server.address


def test_what_is_known_of_a_home_is_not_typed_again(browser: Browser, site: str) -> None:
    context, page = signed_in(browser, site)
    page.get_by_label("Key, phone").fill("9EJFP-R992N-EKTAM")
    page.get_by_role("button", name="Find").click()
    page.get_by_role("button", name="Begin: Marlpit C 28").click()
    count = Count()
    known = {"range": "marlpit-c", "appliance": "Marlpit C 28", "fuel": "natural-gas", "system": "sealed"}
    known |= {"serial": "MC28-004417", "fitted": "2023-10-04", "warranty-ends": "2030-10-04"}
    fill_section(page, known, count)
    assert (count.taps, count.typed) == (0, {})
    told = page.locator("form.section:not([hidden]) .entry:not([hidden])").get_by_text("From the register.")
    # Where hot water comes from is known as well.
    assert told.count() == len(known) + 1
    page.get_by_label("Serial number").fill("MC28-004418")
    page.keyboard.press("Tab")
    saved(page)
    assert told.count() == len(known)
    context.close()


def test_a_dropped_connection_loses_nothing_and_the_page_says_so(browser: Browser, site: str) -> None:
    context, page = signed_in(browser, site)
    record = begin(page)
    page.goto(f"{record}/heating")
    context.set_offline(True)
    fill_section(page, {"flow-c": "60", "return-c": "42", "pump": "2"})
    go_on(page)
    fill_section(page, {"stop-tap-place": "in the porch"})
    page.get_by_role("heading", name="Hot water").click()
    page.locator("#keeping", has_text="Kept on this phone, waiting for a signal: 4 fields.").wait_for()
    context.set_offline(False)
    saved(page)
    page.goto(f"{record}/hot-water")
    assert page.get_by_label("Where the stop tap is").input_value() == "in the porch"
    context.close()


def test_on_the_way_to_signing_what_was_typed_last_is_kept_first(browser: Browser, site: str) -> None:
    context, page = signed_in(browser, site)
    record = begin(page)
    page.goto(f"{record}/heating")
    fill_section(page, {"flow-c": "42", "return-c": "60"})
    page.locator("form.section:not([hidden])").get_by_role("link", name="Look what is missing").click()
    page.wait_for_url("**/sign")
    page.get_by_text("Are the two swapped").wait_for()
    page.get_by_role("link", name="Correct it: Heating").click()
    page.wait_for_url("**/heating#f-return-c")
    assert page.get_by_label("Return", exact=True).input_value() == "60"
    context.close()


def test_what_the_office_changed_meanwhile_is_decided_with_a_tap(browser: Browser, site: str, database: str) -> None:
    context, page = signed_in(browser, site)
    page.get_by_label("Key, phone").fill("9EJFP")
    page.get_by_role("button", name="Find").click()
    page.get_by_role("button", name="Begin: Marlpit C 28").click()
    page.wait_for_url("**/engineer/records/*")
    with Store(database) as store:
        store.register.change("9EJFP-R992N-EKTAM", porch, "office")
    page.goto(f"{page.url}/sign")
    page.get_by_role("button", name="Take “in the porch”").click()
    page.wait_for_load_state()
    assert page.get_by_text("Changed in the register meanwhile").count() == 0
    page.goto(page.url.replace("/sign", "/hot-water"))
    assert page.get_by_label("Where the stop tap is").input_value() == "in the porch"
    context.close()


def porch(record: Record) -> Built:
    """The home after the office heard where the stop tap is now."""
    return Built(replace(record, places={**record.places, "stop-tap": "in the porch"}), ())


def test_after_a_dead_battery_the_queue_is_sent_when_any_page_is_opened(browser: Browser, site: str) -> None:
    context, page = signed_in(browser, site)
    record = begin(page)
    page.goto(f"{record}/heating")
    context.set_offline(True)
    fill_section(page, {"flow-c": "60", "return-c": "42"})
    page.get_by_role("heading", name="Heating").click()
    page.locator("#keeping.waiting").wait_for()
    page.close()
    context.set_offline(False)
    page = context.new_page()
    page.goto("/engineer")
    until = time.monotonic() + 10
    while page.evaluate("Object.keys(localStorage).length"):
        assert time.monotonic() < until
    page.goto(f"{record}/heating")
    assert page.get_by_label("Return", exact=True).input_value() == "42"
    context.close()


def test_a_field_that_is_still_being_typed_when_the_phone_goes_away_is_kept(browser: Browser, site: str) -> None:
    context, page = signed_in(browser, site)
    record = begin(page)
    page.goto(f"{record}/heating")
    page.get_by_label("Pump setting").focus()
    page.keyboard.type("3 of 5")
    page.goto(f"{record}/heating")
    saved(page)
    assert page.get_by_label("Pump setting").input_value() == "3 of 5"
    context.close()


def test_a_session_that_ended_keeps_the_queue_until_somebody_signs_in(browser: Browser, site: str) -> None:
    context, page = signed_in(browser, site)
    record = begin(page)
    page.goto(f"{record}/heating")
    context.clear_cookies()
    fill_section(page, {"flow-c": "60"})
    page.get_by_role("heading", name="Heating").click()
    page.locator("#keeping", has_text="Kept on this phone: 1 field. Sign in again").wait_for()
    page.locator("#keeping").get_by_role("link", name="Sign in").click()
    sign_in(page, NAME)
    page.wait_for_url("**/heating")
    saved(page)
    page.reload()
    assert page.get_by_label("Flow", exact=True).input_value() == "60"
    context.close()


def test_an_answer_that_is_lost_on_the_way_makes_no_second_entry(browser: Browser, site: str) -> None:
    context, page = signed_in(browser, site)
    record = begin(page)
    page.goto(f"{record}/heating")
    sent: list[str] = []

    def lose_the_first(route) -> None:
        sent.append(route.request.post_data)
        if len(sent) == 1:
            route.fetch()
            route.abort()
        else:
            route.continue_()

    page.route("**/entries", lose_the_first)
    fill_section(page, {"flow-c": "60"})
    page.get_by_role("heading", name="Heating").click()
    saved(page)
    assert len(sent) == 2
    assert sent[0] == sent[1]
    context.close()


def test_every_page_of_the_room_is_accessible_and_fits(browser: Browser, site: str) -> None:
    context, page = signed_in(browser, site, bypass_csp=True)
    look_both(page, page.url)
    record = begin(page)
    fill_section(page, COMBI)
    for section in ("water", "flue", "gas", "combustion", "heating", "electrics", "controls", "customer", "outcome"):
        page.goto(f"{record}/{section}")
        fill_section(page, COMBI | MISTAKES | {"polarity": "no", "pump": "", "fuse-a": "abc"})
        page.keyboard.press("Tab")
        saved(page)
        look_both(page, page.url)
    for address in (
        f"{record}/sign",
        "/engineer/sums",
        "/engineer/sums/gas-rate?volume=0.0425&seconds=60",
        "/engineer/sums/gas-rate?volume=abc",
        "/engineer/help/setting-bypass",
        "/engineer/help/setting-bypass/none",
        "/engineer/help/low-pressure/none",
    ):
        page.goto(address)
        look_both(page, address)
    for typed in ("marlpit", "zzz"):
        page.goto("/engineer")
        seek(page, typed)
        assert typed not in page.url
        look_both(page, page.url)
    context.close()


def test_without_a_script_a_section_is_kept_by_its_button(browser: Browser, site: str) -> None:
    context, page = signed_in(browser, site, java_script_enabled=False)
    record = begin(page)
    page.goto(f"{record}/heating")
    for label, text in (("Flow", "42"), ("Return", "60"), ("Pump setting", "2")):
        page.get_by_label(label, exact=True).fill(text)
    page.get_by_role("button", name="Go on: Hot water").click()
    assert page.url == f"{record}/heating"
    assert page.get_by_text("Are the two swapped").count() == 1
    page.get_by_label("Flow", exact=True).fill("warm")
    page.get_by_role("button", name="Go on: Hot water").click()
    assert page.get_by_text("Expected a figure in °C, found “warm”").count() == 1
    assert page.get_by_label("Flow", exact=True).input_value() == "warm"
    context.close()

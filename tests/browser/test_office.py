"""Every page of the office in a real browser: accessible, no wider than a phone, without script, by the keyboard."""

import re

from playwright.sync_api import Browser, BrowserContext, Page, expect

from demo.load import keys
from tests.browser.conftest import Demo
from tests.browser.people import DESK, at_work
from tests.browser.test_pages import look_both

HOME = f"/office/homes/{keys()[0]}"
PAGES = [
    "/office",
    "/office/visits",
    HOME,
    *(f"{HOME}/{section}" for section in ("address", "appliances", "facts", "marks", "places", "alarms")),
    f"{HOME}/people/new",
    f"{HOME}/trail",
    f"{HOME}/lost",
    f"{HOME}/card",
    "/office/new",
    "/office/list",
    "/office/homes",
    "/office/homes?place=nowhere",
    "/office/print?card=none",
    "/office/looked",
    "/office/needs",
    "/office/firm",
    "/office/accounts",
    "/office/figures",
    "/office/due",
    "/office/due?month=2027-10",
    "/office/cards",
    "/staff/calendar",
]


def signed_in(browser: Browser, demo: Demo, script: bool = True) -> tuple[BrowserContext, Page]:
    how = {"java_script_enabled": script, "bypass_csp": True}
    page = at_work(browser, demo.address, "office", DESK, demo.password("office"), **how)
    expect(page.get_by_role("heading", level=1)).to_have_text("Find a home")
    return page.context, page


def test_every_page_of_the_office_is_accessible_and_fits(browser: Browser, demo: Demo) -> None:
    context, page = signed_in(browser, demo)
    for address in PAGES:
        page.goto(demo.address + address)
        look_both(page, address)
        assert page.locator("h1").count() == 1, address
    page.goto(demo.address + HOME)
    for link in ("Change Maud Ellerby", "Everything held about Maud Ellerby", "Forget Maud Ellerby"):
        page.goto(demo.address + HOME)
        page.get_by_role("link", name=link).click()
        look_both(page, link)
    context.close()


def test_a_form_with_mistakes_is_accessible_and_leads_to_each(browser: Browser, demo: Demo) -> None:
    context, page = signed_in(browser, demo)
    page.goto(f"{demo.address}/office/new")
    page.get_by_label("Postcode").fill("nowhere")
    page.get_by_label("Phone 1").fill("12")
    page.get_by_role("button", name="Save").click()
    look_both(page, "mistakes")
    page.get_by_role("alert").get_by_role("link", name=re.compile("Phone 1")).click()
    assert page.url.endswith("#people-0--phones-0")
    page.keyboard.press("Tab")
    expect(page.get_by_label("Phone 2")).to_be_focused()
    expect(page.get_by_label("Postcode")).to_have_value("nowhere")
    expect(page.get_by_label("Postcode")).to_have_attribute("aria-invalid", "true")
    context.close()


def test_the_office_works_without_script_and_with_the_keyboard_alone(browser: Browser, demo: Demo) -> None:
    context, page = signed_in(browser, demo, script=False)
    page.get_by_role("searchbox").focus()
    page.keyboard.type("thorold")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_have_text("Rookery Cottage, Low Lane")
    page.get_by_role("link", name="Change Address").focus()
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_have_text("Address")
    page.get_by_label("Town").focus()
    page.keyboard.press("End")
    page.keyboard.type(" Green")
    page.keyboard.press("Enter")
    expect(page.locator(".place")).to_contain_text("Wickenthorpe Green")
    context.close()

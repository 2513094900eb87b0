"""Asking to be called in a real browser: by the keyboard alone, with a slip, from the end to the reference."""

import re

import pytest
from playwright.sync_api import Browser, Page, expect

from demo.load import keys
from kb.article import Pace
from kb.library import load
from tests.browser.test_pages import SIZES, look
from tests.processes import ROOT
from tests.server.household.ends import end_of_pace

BOOKS = load(ROOT / "articles/en")
END, LATER, DANGER = (end_of_pace(BOOKS, pace) for pace in (Pace.TODAY, Pace.ROUTINE, Pace.LEAVE))


def tab_to(page: Page, wanted: str) -> None:
    """Go on with the keyboard until what is wanted has the focus."""
    for _ in range(60):
        page.keyboard.press("Tab")
        if page.evaluate("wanted => document.activeElement.matches(wanted)", wanted):
            return
    raise AssertionError(f"the keyboard does not reach {wanted}")


@pytest.mark.parametrize("script", [True, False])
def test_the_keyboard_alone_asks_for_a_call(browser: Browser, served: str, script: bool) -> None:
    context = browser.new_context(java_script_enabled=script)
    page = context.new_page()
    page.goto(served + LATER)

    tab_to(page, "a[href$='/call-me']")
    page.keyboard.press("Enter")
    expect(page.locator("h1")).to_have_text("Ask us to call you")
    tab_to(page, "#phone")
    page.keyboard.type("01632")
    tab_to(page, "#name")
    page.keyboard.type("Any Person")
    tab_to(page, "[name=reach]")
    page.keyboard.press("ArrowDown")
    tab_to(page, "[name=consent]")
    page.keyboard.press("Space")
    tab_to(page, "button")
    page.keyboard.press("Enter")

    expect(page.locator("#phone-wrong")).to_contain_text("We need a phone number with all its digits.")
    expect(page.get_by_label("Your name")).to_have_value("Any Person")
    expect(page.get_by_label("In the morning, before 12")).to_be_checked()
    expect(page.locator("[name=consent]")).to_be_checked()
    tab_to(page, "a[href='#phone']")
    page.keyboard.press("Enter")
    tab_to(page, "#phone")
    page.keyboard.press("Control+a")
    page.keyboard.type("01632 960001" if script else "01632 960002")
    tab_to(page, "button")
    page.keyboard.press("Enter")

    expect(page.locator("h1")).to_have_text("We have your request")
    expect(page.locator(".reference b")).to_have_text(re.compile(r"^\w{3}-\w{3}$"))
    expect(page.locator(".received")).to_contain_text("We have your answers too.")
    page.wait_for_load_state("load")
    received = page.url
    page.reload()
    assert page.url == received
    context.close()


def test_going_back_and_sending_again_is_the_same_request(browser: Browser, served: str) -> None:
    page = browser.new_page()
    page.goto(f"{served}{LATER}/call-me")
    form = page.locator("[name=form]").input_value()
    page.get_by_label("Your phone number").fill("01632 960003")
    page.get_by_role("button").click()
    received = page.url

    page.go_back()
    page.evaluate("form => document.querySelector('[name=form]').value = form", form)
    page.get_by_label("Your phone number").fill("01632 960003")
    page.get_by_role("button").click()

    assert page.url == received
    page.close()


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("end", [END, LATER])
def test_form_errors_and_what_was_received_are_accessible_and_fit(
    browser: Browser, served: str, size: tuple[int, int], end: str
) -> None:
    context = browser.new_context(viewport={"width": size[0], "height": size[1]}, bypass_csp=True)
    page = context.new_page()
    page.goto(served + end)
    look(page, page.url)
    page.get_by_role("link", name="Ask us to call you").click()
    look(page, page.url)
    page.get_by_label("Your phone number").fill("12")
    page.get_by_role("button").click()
    look(page, page.url)
    # A number of its own for each, since one number is rung only so often.
    page.get_by_label("Your phone number").fill(f"01632 9600{10 + SIZES.index(size) + 5 * (end == END)}")
    page.get_by_role("button").click()
    expect(page.locator("h1")).to_have_text("We have your request")
    look(page, page.url)
    context.close()


def test_the_trap_is_out_of_sight_and_out_of_reach(browser: Browser, served: str) -> None:
    page = browser.new_page()
    page.goto(f"{served}{LATER}/call-me")

    box = page.locator("#website").bounding_box()
    assert box is not None
    assert box["x"] + box["width"] < 0
    tab_to(page, "[name=consent]")
    assert page.locator("#website").get_attribute("tabindex") == "-1"
    page.close()


def test_behind_a_homes_key_the_form_is_the_homes(browser: Browser, served: str) -> None:
    home = f"/h/{keys()[3]}"
    page = browser.new_page()
    page.goto(f"{served}{home}/help/noise/none")
    for _ in range(30):
        if page.locator(".panel").count():
            break
        page.locator("ul.choices a").first.click()
    page.get_by_role("link", name="Ask us to call you").click()

    assert page.url.startswith(f"{served}{home}/help/noise/")
    expect(page.get_by_label("and my card's key")).to_be_visible()
    page.close()


def test_the_pages_of_asking_are_light(browser: Browser, served: str) -> None:
    page = browser.new_page()
    sizes = {}
    page.on("response", lambda answer: sizes.update({answer.url: len(answer.body())}))
    page.goto(f"{served}{END}/call-me", wait_until="networkidle")

    assert len(sizes) <= 4
    assert sum(size for url, size in sizes.items() if not url.endswith(".ttf")) < 25_000
    page.close()

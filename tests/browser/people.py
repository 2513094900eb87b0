"""Somebody of the firm at a browser of their own, signed in."""

from playwright.sync_api import Browser, Page

from tests.processes import PASSWORD

PHONE, DESK = {"width": 360, "height": 740}, {"width": 1280, "height": 800}


def at_work(
    browser: Browser, site: str, name: str, screen: dict[str, int], password: str = PASSWORD, **how: object
) -> Page:
    """A page that shows the room of somebody who has just signed in."""
    page = browser.new_context(base_url=site, viewport=screen, **how).new_page()
    page.goto("/staff/sign-in")
    sign_in(page, name, password)
    page.wait_for_url(lambda url: "/staff/" not in url)
    return page


def sign_in(page: Page, name: str, password: str = PASSWORD) -> None:
    """Fill in the form that is open."""
    page.get_by_label("Name").fill(name)
    page.get_by_label("Password").fill(password)
    page.get_by_role("button", name="Sign in").click()

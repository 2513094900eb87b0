"""An engineer's browser: what a person does to fill in a record, counted."""

import time
from collections.abc import Iterator
from contextlib import contextmanager

from playwright.sync_api import Browser, BrowserContext, Locator, Page

from tests.browser.effort import Count
from tests.browser.people import PHONE, at_work
from tests.processes import NAME


def signed_in(browser: Browser, site: str, width: int = PHONE["width"], **how: object) -> tuple[BrowserContext, Page]:
    """A browser of this width in which the engineer has signed in."""
    page = at_work(browser, site, NAME, {**PHONE, "width": width}, **how)
    return page.context, page


def begin(page: Page) -> str:
    """Begin a record of a new home; its address."""
    page.get_by_role("button", name="Begin with a new home").click()
    page.wait_for_url("**/engineer/records/*")
    return page.url


def saved(page: Page) -> None:
    """Wait until the page says that everything is kept."""
    page.locator("#keeping", has_text="Saved. Everything you wrote is kept.").wait_for()


def fill_section(page: Page, values: dict[str, str], count: Count | None = None) -> None:
    """Fill in every field of the open section that there is a value for, as fields appear."""
    count = count if count is not None else Count()
    section, done = page.locator("form.section:not([hidden])"), set[str]()
    while True:
        ids = [str(each.get_attribute("data-field")) for each in section.locator(".entry:not([hidden])").all()]
        left = [id for id in ids if id in values and id not in done]
        if not left:
            return
        done.add(left[0])
        box = section.locator(f'[data-field="{left[0]}"]')
        _fill(box, left[0], values[left[0]], count)
        if len(left) > 1:
            _next(box, section.locator(f'[data-field="{left[1]}"]'), count)


def _next(box: Locator, after: Locator, count: Count) -> None:
    """Press the keyboard's key for the next field, where that is the next one to type into."""
    line = "input:not([type=radio], [type=checkbox], [type=date], [type=hidden])"
    if box.locator(line).count() and after.locator(line).count() and box.locator(f"{line}:focus").count():
        box.locator(line).press("Enter")
        count.letters += 1


def _fill(box: Locator, id: str, text: str, count: Count) -> None:
    picks = box.locator("input[type=radio], input[type=checkbox]")
    if picks.count():
        for option in text.split(" "):
            pick = box.locator(f'input[value="{option}"]')
            if not pick.is_checked():
                pick.check()
                count.taps += 1
        return
    entry = box.locator("input, textarea")
    if entry.input_value() == text:
        return
    if entry.evaluate("entry => entry === document.activeElement"):
        count.onward += 1
    if entry.get_attribute("type") == "date":
        entry.fill(text)
    else:
        entry.click()
        entry.select_text()
        entry.press_sequentially(text)
    count.typed[id] = count.typed.get(id, 0) + 1
    count.letters += len(text)


@contextmanager
def waiting_for(page: Page, where: str, count: Count) -> Iterator[None]:
    """Press what leads to another page, and wait until it is there."""
    began = time.monotonic()
    yield
    page.wait_for_url(where)
    count.pages += 1
    count.waited += time.monotonic() - began


def go_on(page: Page, count: Count | None = None) -> None:
    """Press the open section's button."""
    page.locator("form.section:not([hidden]) .onward").click()
    if count:
        count.taps += 1

"""An engineer's browser on a visit: what a person taps."""

import time
from typing import NamedTuple

from playwright.sync_api import Page

from kb.visit.job import Job
from server.store import Store

KEY = "9EJFP-R992N-EKTAM"
PLAIN = (
    "Fixed, or nothing was wrong",
    "Nothing unsafe found",
    "How to switch it off",
    "Is right as it is",
)


class Served(NamedTuple):
    address: str
    database: str

    def jobs(self) -> tuple[Job, ...]:
        with Store(self.database) as store:
            return store.jobs.of_home(KEY)


def taken(page: Page) -> str:
    """Take the booked visit, and wait until its pages are kept on the phone; its address."""
    page.goto("/engineer/visits")
    page.get_by_role("button", name="Take:").click()
    page.locator("#record[data-at-hand]").wait_for()
    return page.url


def seek(page: Page, typed: str) -> None:
    """Look for a home."""
    page.get_by_label("Key, phone, postcode").fill(typed)
    page.get_by_role("button", name="Find", exact=True).click()


def check(page: Page, answer: str) -> None:
    """Give an answer to the check that is open."""
    page.locator("details.walk[open] .stop:not([hidden])").get_by_role("button", name=answer, exact=True).click()


def fill_plain(page: Page, outcome: str = PLAIN[0], safe: bool = True) -> None:
    """What a plain job asks for, the likeliest cause first; the home is under warranty, so who pays is known."""
    page.locator('[data-field="cause"] input').first.check()
    for words in (outcome, PLAIN[1] if safe else "Something unsafe", *PLAIN[2:]):
        page.get_by_label(words, exact=True).check()
    page.locator('[data-field="phone"]').get_by_label("No", exact=True).check()


def close(page: Page) -> None:
    page.get_by_role("button", name="Close the job").click()


def until_closed(site: Served) -> Job:
    until = time.monotonic() + 20
    while not (job := site.jobs()[0]).closed:
        assert time.monotonic() < until, [(each.field, each.text) for each in job.entries]
        time.sleep(0.2)
    return job

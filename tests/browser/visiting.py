"""An engineer's browser on a visit: what a person taps."""

import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Page

from kb.home import Home
from kb.library import load
from kb.visit.job import Job
from server.store import Store
from tests.booking import book
from tests.kb.desk.calling import ARTICLES
from tests.processes import Server, prepare

KEY = "9EJFP-R992N-EKTAM"
PLAIN = (
    "Fixed, or nothing was wrong",
    "Nothing unsafe found",
    "How to switch it off",
    "Is right as it is",
)


@contextmanager
def booked_site(folder: Path) -> Iterator[Server]:
    """The demo with an engineer, and a visit booked at one of its homes."""
    database = f"sqlite:///{folder / 'homes.db'}"
    prepare(database)
    with Store(database) as store:
        home = store.home(KEY)
        assert isinstance(home, Home)
        answers = ("It has credit, and the gas is on", "Between the marks")
        book(store, load(ARTICLES), KEY, *answers, known=home.known)
    with Server(database) as server:
        yield server


def jobs(server: Server) -> tuple[Job, ...]:
    """The jobs of the home, as the database has them."""
    with Store(server.database) as store:
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


def until_closed(site: Server) -> Job:
    until = time.monotonic() + 60
    while not (job := jobs(site)[0]).closed:
        assert time.monotonic() < until, [(each.field, each.text) for each in job.entries]
        time.sleep(0.2)
    return job

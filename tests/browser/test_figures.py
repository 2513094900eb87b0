"""The office's figures in a real browser: accessible, no wider than a phone, printed whole, the same without colour."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pypdfium2
import pytest
from playwright.sync_api import Browser, Page

from demo.year import year
from kb.library import load as load_articles
from kb.staff import Role
from server.store import Store
from tests.browser.people import at_work
from tests.browser.test_pages import look_both
from tests.kb.desk.calling import ARTICLES
from tests.processes import Server, prepare

NAME = "Ola"
PERIODS = ("12-weeks", "year", "all")
PICTURES = 9


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    database = f"sqlite:///{tmp_path_factory.mktemp('figures') / 'demo.db'}"
    prepare(database, {NAME: Role.OFFICE})
    calls, jobs = year(load_articles(ARTICLES), date.today(), [1, 2, 3])
    with Store(database) as store:
        store.figures.add_calls(calls)
        store.figures.add_jobs(jobs)
    with Server(database) as server:
        yield server.address


def opened(browser: Browser, site: str, width: int, **how: object) -> Page:
    return at_work(browser, site, NAME, {"width": width, "height": 800}, **how)


def test_the_figures_are_accessible_and_fit_with_every_table_open(browser: Browser, site: str) -> None:
    page = opened(browser, site, 1280, bypass_csp=True)
    for period in PERIODS:
        page.goto(f"/office/figures?period={period}")
        assert page.get_by_role("img").count() == PICTURES
        # The tables have the same columns whatever the period, and axe takes long over a thousand rows.
        for summary in page.locator("summary").all() if period == "year" else ():
            summary.click()
        look_both(page, page.url)
    page.context.close()


def test_nothing_of_a_picture_is_forbidden_by_the_pages_own_policy(browser: Browser, site: str) -> None:
    page = opened(browser, site, 360)
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.goto("/office/figures?period=year")

    assert said == []
    drawn = (
        "[...document.querySelectorAll('svg.figure text')].every(t => getComputedStyle(t).fontFamily.includes('Hyper'))"
    )
    assert page.evaluate(drawn)
    page.context.close()


def test_words_in_pictures_are_large_enough_on_a_phone(browser: Browser, site: str) -> None:
    page = opened(browser, site, 360)
    page.goto("/office/figures?period=year")
    heights = page.evaluate("""[...document.querySelectorAll('svg.figure')].map(svg => {
        const scale = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width
        return scale * Math.min(...[...svg.querySelectorAll('text')].map(t => parseFloat(getComputedStyle(t).fontSize)))
    })""")

    assert len(heights) == PICTURES
    assert min(heights) >= 10
    page.context.close()


def test_a_table_comes_as_a_file(browser: Browser, site: str) -> None:
    page = opened(browser, site, 1280)
    page.goto("/office/figures?period=year")
    with page.expect_download() as waiting:
        page.locator("#calls").get_by_role("link", name="CSV").click()

    assert waiting.value.suggested_filename == "calls-year.csv"
    lines = waiting.value.path().read_text(encoding="utf-8").splitlines()
    assert len(lines) == 1 + 52
    page.context.close()


def test_on_paper_there_are_pictures_and_no_menus(browser: Browser, site: str, tmp_path: Path) -> None:
    page = opened(browser, site, 1280)
    page.goto("/office/figures?period=year")
    page.pdf(path=tmp_path / "figures.pdf", format="A4")
    words = "".join(
        sheet.get_textpage().get_text_bounded() for sheet in pypdfium2.PdfDocument(tmp_path / "figures.pdf")
    )

    assert "0 °C or colder outdoors" in words
    assert "Services overdue" in words
    assert "As a table" not in words
    assert "Sign out" not in words
    page.context.close()

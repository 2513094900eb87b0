"""A home's card in a real browser, in both rooms: seen in each size, its PDF one tap away, axe silent."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from demo.load import keys
from tests.browser.conftest import Demo
from tests.browser.people import at_work
from tests.browser.test_pages import SIZES, look
from tests.browser.visiting import seek

SEALED, _, VENTED, *_ = keys()
CARDS = [
    f"/{room}/homes/{key}/card{size}"
    for room in ("office", "engineer")
    for key in (SEALED, VENTED)
    for size in ("", "/id1", "/a5")
]
LOOKS = ["/office/look", "/office/look/id1?colour=%23883300", "/office/look?colour=%23ffcc00"]


@pytest.fixture(params=SIZES, ids=["phone", "desk"])
def pages(browser: Browser, demo: Demo, request: pytest.FixtureRequest) -> Iterator[dict[str, Page]]:
    """A page of somebody in each room."""
    width, height = request.param
    screen = {"width": width, "height": height}
    opened = {
        room: at_work(browser, demo.address, room, screen, demo.password(room)) for room in ("office", "engineer")
    }
    yield opened
    for page in opened.values():
        page.context.close()


def drawn(page: Page) -> list[float]:
    """How many dots there are to a pixel of the page in each picture, 0 for one that did not come."""
    return page.evaluate(
        "Promise.all([...document.querySelectorAll('.sides img')].map("
        "img => img.decode().then(() => img.naturalWidth / img.clientWidth, () => 0)))"
    )


def test_every_card_is_seen_sharp_under_the_pages_own_policy_and_axe_is_silent(pages: dict[str, Page]) -> None:
    said: list[str] = []
    for page in pages.values():
        page.on("console", lambda message: said.append(message.text))
    for address in (*CARDS, *LOOKS):
        page = pages[address.split("/")[1]]
        page.goto(address)
        dots = drawn(page)
        assert len(dots) == 2, address
        assert all(each >= 2 for each in dots), (address, dots)
        assert not [words for words in said if "Content Security Policy" in words], address
        look(page, address)


def test_a_size_is_chosen_and_its_pdf_taken_with_one_tap(pages: dict[str, Page]) -> None:
    page = pages["engineer"]
    page.goto("/engineer")
    seek(page, "marlpit")
    page.get_by_role("link", name=re.compile("See its card.*Marlpit C 28")).click()
    expect(page.get_by_role("heading", level=1)).to_have_text(re.compile("The card.*Marlpit C 28"))
    page.get_by_role("link", name="A5, large print", exact=True).click()
    expect(page.get_by_role("link", name="A5, large print", exact=True)).to_have_attribute("aria-current", "page")
    expect(page.get_by_role("img", name="Front of the card.")).to_be_visible()
    with page.expect_download() as waiting:
        page.get_by_role("link", name="PDF, A5, large print").click()
    assert waiting.value.suggested_filename == f"card-{SEALED}-a5.pdf"
    assert Path(waiting.value.path()).read_bytes().startswith(b"%PDF")


def test_the_office_goes_from_the_home_to_its_card_and_to_how_cards_look(pages: dict[str, Page]) -> None:
    page = pages["office"]
    page.goto(f"/office/homes/{SEALED}")
    page.get_by_role("link", name="See and print its card").click()
    expect(page.get_by_role("img", name="Back of the card.")).to_be_visible()
    page.get_by_role("link", name="Back to the home").click()
    page.goto("/office")
    page.get_by_role("link", name="How our cards look").click()
    page.get_by_label("Try a colour").fill("#ffcc00")
    page.keyboard.press("Enter")
    expect(page.get_by_role("alert")).to_contain_text("contrast of 1.51 to 1")
    expect(page.get_by_label("Try a colour")).to_have_attribute("aria-invalid", "true")

"""Every page of the office in a real browser: accessible, no wider than a phone, without script, by the keyboard."""

import re
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from demo.load import keys
from tests.browser.conftest import ROOT, free_port
from tests.browser.test_pages import look

SIZES = [(320, 640), (1280, 800)]
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


@dataclass(frozen=True, slots=True)
class Demo:
    """The demo as somebody starts it, with what it printed."""

    address: str
    said: Path

    def password(self, name: str) -> str:
        found = re.search(rf"^ +{name} +(\S+)$", self.said.read_text(), re.M)
        assert found, self.said.read_text()
        return found[1]


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Demo]:
    folder, port = tmp_path_factory.mktemp("office"), free_port()
    environment = {
        "TUNDISH_PORT": str(port),
        "TUNDISH_DATABASE": f"sqlite:///{folder / 'demo.db'}",
        "PATH": "/usr/bin:/bin",
    }
    said = folder / "said.txt"
    with said.open("w") as out:
        server = subprocess.Popen([sys.executable, "-m", "demo"], cwd=ROOT, env=environment, stdout=out)
    try:
        for _ in range(150):
            assert server.poll() is None, "the demo did not start"
            try:
                urllib.request.urlopen(f"http://127.0.0.1:{port}").close()
                break
            except OSError:
                time.sleep(0.2)
        yield Demo(f"http://127.0.0.1:{port}", said)
    finally:
        server.terminate()
        server.wait(10)


def signed_in(browser: Browser, demo: Demo, size: tuple[int, int], script: bool = True) -> tuple[BrowserContext, Page]:
    context = browser.new_context(
        viewport={"width": size[0], "height": size[1]}, java_script_enabled=script, bypass_csp=True
    )
    page = context.new_page()
    page.goto(f"{demo.address}/office")
    page.get_by_label("Name").fill("office")
    page.get_by_label("Password").fill(demo.password("office"))
    page.get_by_role("button", name="Sign in").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Find a home")
    return context, page


@pytest.mark.parametrize("size", SIZES)
def test_every_page_of_the_office_is_accessible_and_fits(browser: Browser, demo: Demo, size: tuple[int, int]) -> None:
    context, page = signed_in(browser, demo, size)
    for address in PAGES:
        page.goto(demo.address + address)
        look(page, address)
        assert page.locator("h1").count() == 1, address
    page.goto(demo.address + HOME)
    for link in ("Change Maud Ellerby", "Everything held about Maud Ellerby", "Forget Maud Ellerby"):
        page.goto(demo.address + HOME)
        page.get_by_role("link", name=link).click()
        look(page, link)
    context.close()


@pytest.mark.parametrize("size", SIZES)
def test_a_form_with_mistakes_is_accessible_and_leads_to_each(
    browser: Browser, demo: Demo, size: tuple[int, int]
) -> None:
    context, page = signed_in(browser, demo, size)
    page.goto(f"{demo.address}/office/new")
    page.get_by_label("Postcode").fill("nowhere")
    page.get_by_label("Phone 1").fill("12")
    page.get_by_role("button", name="Save").click()
    look(page, "mistakes")
    page.get_by_role("alert").get_by_role("link", name=re.compile("Phone 1")).click()
    assert page.url.endswith("#people-0--phones-0")
    page.keyboard.press("Tab")
    expect(page.get_by_label("Phone 2")).to_be_focused()
    expect(page.get_by_label("Postcode")).to_have_value("nowhere")
    expect(page.get_by_label("Postcode")).to_have_attribute("aria-invalid", "true")
    context.close()


def test_the_office_works_without_script_and_with_the_keyboard_alone(browser: Browser, demo: Demo) -> None:
    context, page = signed_in(browser, demo, (1280, 800), script=False)
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

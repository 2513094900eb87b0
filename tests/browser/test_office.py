"""The office in a real browser: from five thousand homes in a file to a person who is forgotten."""

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
from tests.listings import generated

SIZES = [(360, 740), (1280, 800)]
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


def test_five_thousand_homes_come_in_and_one_is_found_changed_printed_and_forgotten(
    browser: Browser, demo: Demo, tmp_path: Path
) -> None:
    context, page = signed_in(browser, demo, (1280, 800))
    file = tmp_path / "homes.csv"
    file.write_text(generated(5_000), encoding="utf-8")
    page.get_by_role("link", name="Homes from a file").click()
    page.get_by_label("A table of homes").set_input_files(file)
    page.get_by_role("button", name="Check").click()
    expect(page.get_by_role("alert")).to_contain_text("Nothing is wrong in this file: 5,000 new homes", timeout=60_000)
    page.get_by_label("A table of homes").set_input_files(file)
    page.get_by_role("button", name="Import", exact=True).click()
    expect(page.get_by_role("alert")).to_contain_text("Imported: 5,000 new homes", timeout=60_000)

    page.get_by_role("link", name="Office").first.click()
    name = next(each for each in file.read_text(encoding="utf-8").split(",") if each.endswith(" 4321"))
    page.get_by_role("searchbox").fill(name.upper())
    page.get_by_role("button", name="Find").click()
    home = page.url
    expect(page.locator(".person h3")).to_have_text(name)

    page.get_by_role("link", name="See and print its card").click()
    page.get_by_role("button", name="mark as printed").first.click()
    page.goto(home)
    page.get_by_role("link", name=f"Change {name}").click()
    page.get_by_label("Phone 1").fill("01632 960 987")
    page.get_by_role("button", name="Save").click()
    expect(page.get_by_role("link", name="01632 960987")).to_be_visible()
    page.get_by_role("link", name="Change Where things are").click()
    page.get_by_label("The tap that turns the water off").fill("under the stairs")
    page.get_by_role("button", name="Save").click()

    page.goto(f"{demo.address}/office/cards")
    expect(page.get_by_role("table").get_by_role("link")).to_have_attribute("href", home.removeprefix(demo.address))
    with page.expect_download() as waiting:
        page.get_by_role("button", name="Make the PDF of all").click()
    assert Path(waiting.value.path()).read_bytes().startswith(b"%PDF")
    page.get_by_role("button", name="mark as printed").click()
    expect(page.get_by_text("Every printed card still says what is known.")).to_be_visible()

    page.goto(home)
    page.get_by_role("link", name=f"Forget {name}").click()
    page.get_by_label(re.compile("I made sure")).check()
    page.get_by_role("button", name="Forget").click()
    expect(page.get_by_role("heading", level=1)).to_have_text(f"{name} is forgotten")
    page.goto(home)
    expect(page.get_by_text("Nobody is noted yet.")).to_be_visible()
    context.close()

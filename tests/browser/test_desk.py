"""The author's desk in a real browser: it changes as a file is saved, and its pictures fit their words."""

import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from tests.browser.test_pages import look_both
from tests.processes import ROOT, free_port, running


@dataclass(frozen=True, slots=True)
class Desk:
    address: str
    folder: Path

    def save(self, article: str, old: str, new: str) -> None:
        file = self.folder / f"{article}.md"
        text = file.read_text(encoding="utf-8")
        assert old in text
        file.write_text(text.replace(old, new), encoding="utf-8")


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Desk]:
    """`tundish write` on a copy of the articles."""
    folder, port = tmp_path_factory.mktemp("author") / "en", free_port()
    shutil.copytree(ROOT / "articles/en", folder)
    with running("server.cli", "write", "--articles", str(folder), "--port", str(port), port=port) as address:
        yield Desk(address, folder)


def test_a_saved_file_changes_the_page_without_a_touch(browser: Browser, desk: Desk) -> None:
    page = browser.new_page()
    page.goto(f"{desk.address}/articles/read-the-gauge")
    expect(page.get_by_text("Nothing was found.")).to_be_visible()

    desk.save("read-the-gauge", "### You have no gauge to read", "### You have no dial to read")
    expect(page.locator(".findings")).to_contain_text("unknown-link", timeout=15_000)
    expect(page.locator(".picture").first).to_contain_text("You have no dial to read")
    expect(page.locator(".picture").first).to_contain_text("Nothing leads here")

    desk.save("read-the-gauge", "### You have no dial to read", "### You have no gauge to read")
    expect(page.get_by_text("Nothing was found.")).to_be_visible(timeout=15_000)
    expect(page.get_by_role("status")).to_contain_text("The proof went over all walks", timeout=60_000)
    page.close()


def test_a_file_that_cannot_be_read_shows_why_and_comes_back(browser: Browser, desk: Desk) -> None:
    page = browser.new_page()
    page.goto(f"{desk.address}/articles/bleed-a-radiator")
    title = page.locator("h1").inner_text()

    desk.save("bleed-a-radiator", "kind: how-to", "kind: hwo-to")
    expect(page.locator(".findings")).to_contain_text("The field 'kind'", timeout=15_000)
    desk.save("bleed-a-radiator", "kind: hwo-to", "kind: how-to")

    expect(page.locator("h1")).to_have_text(title, timeout=15_000)
    page.close()


def test_every_page_of_the_desk_is_accessible_and_fits(browser: Browser, desk: Desk) -> None:
    context = browser.new_context(bypass_csp=True)
    page = context.new_page()
    for address in (
        "/",
        "/articles/low-pressure",
        "/articles/ends",
        "/ranges/marlpit-c",
        "/rules/dead-end",
        "/nothing",
    ):
        page.goto(desk.address + address)
        look_both(page, address)
    context.close()


def test_nothing_is_refused_by_the_pages_own_policy(browser: Browser, desk: Desk) -> None:
    page = browser.new_page()
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))

    page.goto(f"{desk.address}/articles/low-pressure", wait_until="load")
    page.goto(f"{desk.address}/articles/low-pressure/household.svg", wait_until="load")

    assert said == []
    assert page.evaluate("[...document.fonts].map(font => font.status)") == ["loaded", "loaded"]
    page.close()


def test_the_beginning_of_a_tree_is_to_be_seen_on_a_phone(browser: Browser, desk: Desk) -> None:
    page = browser.new_page(viewport={"width": 360, "height": 800})
    page.goto(f"{desk.address}/articles/low-pressure")

    box = page.locator(".begins").first.bounding_box()
    assert box is not None
    assert box["x"] >= 0
    assert box["x"] + box["width"] <= 360
    page.close()


@pytest.mark.parametrize("picture", ["no-hot-water/household", "low-pressure/engineer", "read-the-gauge/household"])
def test_words_stay_inside_their_boxes_as_the_browser_sets_them(browser: Browser, desk: Desk, picture: str) -> None:
    page = browser.new_page()
    page.goto(f"{desk.address}/articles/{picture}.svg")
    page.evaluate("document.fonts.ready")

    out = page.evaluate(
        """() => {
          const drawn = document.querySelectorAll("rect[stroke], path[stroke]:not([fill=none])");
          const boxes = [...drawn].map(each => each.getBBox());
          return [...document.querySelectorAll("text")].filter(text => {
            const at = text.getBBox(), middle = at.y + at.height / 2;
            const around = boxes.filter(box => box.height > 20 && box.x <= at.x && at.x < box.x + box.width
              && box.y <= middle && middle <= box.y + box.height && box.width < 240);
            return around.some(box => at.x + at.width > box.x + box.width);
          }).map(text => text.textContent);
        }"""
    )

    assert out == []
    page.close()

"""Every page in a real browser: nothing axe-core objects to, nothing wider than the screen, few requests, few bytes."""

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, Response

from demo.load import keys

HOME, SYSTEM, VENTED, LPG, OIL = (f"/h/{key}" for key in keys())
PAGES = [
    "/",
    "/danger",
    "/find?words=smell+of+gas",
    "/find?code=zz",
    "/find?code=frost",
    "/h",
    "/h?key=nonsense",
    "/nowhere",
    "/help/low-pressure",
    "/help/low-pressure/none",
    "/help/low-pressure/garbage",
    HOME,
    f"{HOME}/help/low-pressure/none",
    f"{HOME}/find?code=double+four",
    f"{SYSTEM}/find?words=code+N20+but+water+pours+out",
    f"{OIL}/find?code=fumes",
    VENTED,
    f"{LPG}/help/gas-supply/none",
]
SIZES = [(320, 640), (1280, 800)]


def look(page: Page, address: str) -> None:
    """Hold a page against WCAG 2.2 AA by axe-core, and against WCAG 1.4.10: no scrolling in two directions."""
    found = Axe().run(
        page, options={"runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}
    )
    assert found.violations_count == 0, f"{address}\n{found.generate_report()}"
    assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth"), address


def look_both(page: Page, address: str) -> None:
    """Hold a page against the same in each width, as somebody would who makes the window narrower."""
    for width, height in SIZES:
        page.set_viewport_size({"width": width, "height": height})
        look(page, address)


@pytest.mark.parametrize(("size", "script"), tuple(zip(SIZES, (False, True), strict=True)))
def test_every_page_is_accessible_and_fits(browser: Browser, served: str, size: tuple[int, int], script: bool) -> None:
    context = browser.new_context(
        viewport={"width": size[0], "height": size[1]}, java_script_enabled=script, bypass_csp=True
    )
    page = context.new_page()
    for address in PAGES:
        page.goto(served + address)
        if script:
            look(page, address)
        assert page.locator("h1").count() == 1, address
        assert page.get_by_role("navigation", name="Danger").get_by_role("link").count() == 2, address
    context.close()


def test_a_step_page_is_light(browser: Browser, served: str) -> None:
    page = browser.new_page()
    answers: list[Response] = []
    page.on("response", lambda answer: answers.append(answer))

    page.goto(f"{served}/help/low-pressure/none", wait_until="networkidle")

    assert len(answers) <= 4
    assert sum(len(answer.body()) for answer in answers if not answer.url.endswith(".ttf")) < 25_000
    page.close()


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize(
    ("home", "article"),
    [
        (HOME, "low-pressure"),
        (SYSTEM, "high-pressure"),
        (VENTED, "overheat"),
        (LPG, "gas-supply"),
        ("", "condensate"),
        ("", "no-power"),
    ],
)
def test_a_household_comes_to_an_end_that_says_whom_to_call(
    browser: Browser, served: str, size: tuple[int, int], home: str, article: str
) -> None:
    page = browser.new_page(viewport={"width": size[0], "height": size[1]}, java_script_enabled=True, bypass_csp=True)
    page.goto(f"{served}{home}/help/{article}")
    page.get_by_role("link", name="None of these. I am sure.").click()
    for _ in range(40):
        if page.locator(".panel").count():
            break
        look(page, page.url)
        if page.locator("#reading").count():
            page.locator("#reading").fill("1.1")
            page.get_by_role("button", name="Go on").click()
        else:
            page.locator("ul.choices a").first.click()
    look(page, page.url)
    assert page.locator(".panel .whom").count() == 1
    page.close()


def test_back_goes_back_and_change_goes_back_to_the_question(browser: Browser, served: str) -> None:
    page = browser.new_page()
    page.goto(f"{served}/help/low-pressure/none")
    first = page.locator("h1").inner_text()
    page.locator("ul.choices a").first.click()
    second = page.locator("h1").inner_text()

    page.go_back()
    assert page.locator("h1").inner_text() == first
    page.go_forward()
    assert page.locator("h1").inner_text() == second
    page.get_by_role("link", name=f"Change: {first}").click()
    assert page.locator("h1").inner_text() == first
    page.close()


def test_the_keyboard_alone_is_enough(browser: Browser, served: str) -> None:
    page = browser.new_page()
    page.goto(f"{served}/help/low-pressure/none")

    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.textContent") == "Skip to the question"
    for _ in range(20):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.closest('ul.choices') !== null"):
            break
    page.keyboard.press("Enter")

    page.wait_for_url("**/help/low-pressure/none-*")
    page.close()


def test_the_page_stays_readable_at_four_times_its_size(browser: Browser, served: str) -> None:
    # WCAG 1.4.10: 1280 px at 400 % are 320 CSS px.
    page = browser.new_page(viewport={"width": 320, "height": 256}, device_scale_factor=4)
    page.goto(f"{served}/danger")

    assert page.evaluate("document.documentElement.scrollWidth <= 320")
    page.close()

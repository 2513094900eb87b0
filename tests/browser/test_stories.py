"""A household, the desk, an engineer and the office on their own screens, from the first question to the figures.

Nobody types what somebody else has typed, and the server is killed between any two steps; each kind of database is
seen through one whole story.
"""

from collections.abc import Iterator
from datetime import date, timedelta

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.keyboard import Keyboard
from tests.browser.people import DESK, PHONE
from tests.browser.staging import Firm, firm_at_work
from tests.browser.visiting import check, close, fill_plain, taken

HOME = "9EJFP-R992N-EKTAM"
OWN_WORDS = "it clicks and clicks and then gives up"


@pytest.fixture
def firm(address: str, browser: Browser) -> Iterator[Firm]:
    with firm_at_work(address, browser) as firm:
        yield firm


ALONE = (
    "It has credit, and the gas is on",
    "Between the marks",
    "No, neither",
)
ON_THE_PHONE = (
    "It is clear and whole",
    "It still will not light",
    "None",
    "It clicks, but no flame comes",
    "It clicks, but no flame comes",
)
ALARM = "the carbon monoxide alarm went off in the night by the way"
CAUSE = "Electrode, lead or spark unit"


@pytest.mark.parametrize("kind", ["sqlite"])
def test_an_ordinary_fault_from_the_kitchen_to_the_figures(firm: Firm) -> None:
    reference = household_gets_stuck(firm)
    desk_goes_on_there_and_books(firm, reference)
    engineer_reads_and_closes(firm)
    office_sees_it(firm)
    assert firm.killed > 20


@pytest.mark.parametrize("kind", ["postgresql"])
def test_a_caller_who_mentions_the_alarm_in_passing_on_the_third_question(firm: Firm) -> None:
    reference = household_gets_stuck(firm)
    desk_hears_of_the_alarm(firm, reference)
    engineer_comes_after_the_emergency_service(firm)
    office_sees_the_danger(firm)
    assert firm.killed > 20


def household_gets_stuck(firm: Firm) -> str:
    """Walk alone until a question that nobody here can answer; what the page shows to be read out."""
    page = firm.household()
    page.goto(f"/h/{HOME}")
    page.get_by_label("Say it in your own words").fill("no flame and nothing is warm")
    with page.expect_navigation():
        page.get_by_role("button", name="Find").click()
    for words in ("The boiler will not light", "None of these. I am sure.", *ALONE):
        firm.kill()
        with page.expect_navigation():
            page.get_by_role("link", name=words).click()
    assert page.locator("h1").inner_text() == "Look at the flue end outside"
    return page.locator(".reference b").inner_text()


def desk_goes_on_there_and_books(firm: Firm, reference: str) -> None:
    """From the very step to the booked visit."""
    hands = desk_at_the_step(firm, reference)
    for words in ON_THE_PHONE:
        firm.kill()
        hands.key(key_of(hands.page, words))
    assert hands.heading == "An engineer today"
    firm.kill()
    hands.key("f", "1")
    firm.kill()
    hands.key("1")
    assert "Somebody grown up must be in." in hands.page.locator("main").inner_text()
    firm.kill()
    hands.key("1")
    assert hands.heading.startswith("Call of ")


def desk_at_the_step(firm: Firm, reference: str) -> Keyboard:
    """Danger first, then who and what, by the keys of a keyboard; nothing that the household answered is asked."""
    hands = Keyboard(firm.staff("Wren Alder", DESK))
    hands.key("n")
    for _ in range(8):
        firm.kill()
        hands.key("n")
    firm.types(hands, "01632 960211").key("Enter", "1")
    firm.kill()
    firm.types(hands, OWN_WORDS).key("Enter")
    firm.kill()
    firm.types(hands.key("Escape", "c"), reference.lower()).key("Enter")
    assert hands.heading == "Look at the flue end outside"
    told = hands.page.locator(".answers").inner_text()
    assert all(words in told for words in ALONE)
    return hands


def engineer_reads_and_closes(firm: Firm) -> None:
    """The brief holds what was told; the job is closed by taps alone."""
    page = firm.staff("Robin Thorne", PHONE)
    brief = taken(page)
    words = page.locator("main").inner_text()
    for each in (
        OWN_WORDS,
        "Flat 3",
        "0 before the call, 2 in it",
        "Between the marks",
        "It is clear and whole",
        CAUSE,
    ):
        assert each in words
    firm.kill()
    page.goto(f"{brief}/site")
    firm.kill()
    page.get_by_role("button", name="I have arrived").click()
    saved(page)
    firm.kill()
    page.get_by_role("button", name="None of these").click()
    for words in ("Arrival checks clear", "Fan runs, no spark"):
        check(page, words)
        saved(page)
        firm.kill()
    fill_plain(page)
    saved(page)
    firm.kill()
    close(page)
    page.get_by_role("heading", name="How it was closed").wait_for()
    assert CAUSE in page.locator("main").inner_text()


def office_sees_it(firm: Firm) -> None:
    """One call, one job, the step at which they gave up, and what it was."""
    page = firm.staff("Hollis Marr", DESK)
    firm.kill()
    page.goto("/office/figures")
    for summary in page.locator("summary").all():
        summary.click()
    said = page.locator("main").inner_text()
    assert "1 call in 1 week. Ignition failure came most often" in said
    assert "Most often at “Look at the flue end outside (The boiler will not light)”" in said
    assert f"{CAUSE}\t{CAUSE}" in said


def desk_hears_of_the_alarm(firm: Firm, reference: str) -> None:
    """On the third question of the phone the alarm is mentioned; what was asked before counts no more."""
    hands = desk_at_the_step(firm, reference)
    for words in ON_THE_PHONE[:2]:
        firm.kill()
        hands.key(key_of(hands.page, words))
    firm.kill()
    firm.types(hands.key("q"), ALARM).key("Enter")
    assert hands.heading.startswith("Any carbon monoxide alarm")
    firm.kill()
    hands.key("y")
    assert hands.heading == "Get out: carbon monoxide"
    said = hands.page.locator("main").inner_text()
    assert "0800 111 999" in said
    assert "It is clear and whole" not in said
    firm.kill()
    hands.key("5")
    firm.kill()
    hands.key("1")
    assert "The emergency service goes first." in hands.page.locator("main").inner_text()
    assert hands.page.get_by_role("button", name="Solved by phone").count() == 0
    firm.kill()
    hands.key("4")
    note = hands.page.locator(".paper").inner_text()
    for each in (ALARM, "Handed to the emergency service"):
        assert each in note


def engineer_comes_after_the_emergency_service(firm: Firm) -> None:
    """The brief says who goes first, and what was said of the alarm and when; what is unsafe is closed so."""
    page = firm.staff("Robin Thorne", PHONE)
    brief = taken(page)
    words = page.locator("main").inner_text()
    for each in ("The emergency service goes first.", ALARM, OWN_WORDS, "Flat 3", "Get out: carbon monoxide"):
        assert each in words
    firm.kill()
    page.goto(f"{brief}/site")
    page.get_by_role("button", name="I have arrived").click()
    saved(page)
    firm.kill()
    page.get_by_role("button", name="None of these").click()
    for words in ("Made safe, with a reference", "Room-sealed appliances only", "A joint, seal or case defect"):
        check(page, words)
        saved(page)
        firm.kill()
    fill_plain(page, outcome="Made safe", safe=False)
    for words in (
        "The part",
        "The desk agrees a day",
        "Immediately Dangerous",
        "Disconnected or isolated, with permission",
        "Was told",
    ):
        page.get_by_label(words, exact=True).check()
    page.locator('[data-field="return-who"]').get_by_label("I do", exact=True).check()
    for field in ("label", "riddor"):
        page.locator(f'[data-field="{field}"]').get_by_label("Yes", exact=True).check()
    firm.type(page.get_by_label("What is unsafe"), "the seal of the flue's first joint is perished")
    firm.type(page.get_by_label("The words of the notice"), "Do not use this boiler before the flue is put right.")
    firm.type(page.get_by_label("To whom the notice was given"), "the tenant")
    firm.type(page.get_by_label("Who was told, or tried"), "the agent, by phone")
    page.get_by_label("Found on").fill(date.today().isoformat())
    saved(page)
    firm.kill()
    close(page)
    page.get_by_role("heading", name="How it was closed").wait_for()
    closed = page.locator("main").inner_text()
    assert "A flue, seal or case defect" in closed
    assert f"{date.today() + timedelta(days=14):%-d %B %Y}" in closed


def office_sees_the_danger(firm: Firm) -> None:
    """One call about carbon monoxide, one job."""
    page = firm.staff("Hollis Marr", DESK)
    page.goto("/office/figures")
    for summary in page.locator("summary").all():
        summary.click()
    said = page.locator("main").inner_text()
    assert "Carbon monoxide came most often" in said


def key_of(page: Page, words: str) -> str:
    """The key beside an answer."""
    return str(page.get_by_role("button", name=words).first.get_attribute("data-key"))


def saved(page: Page) -> None:
    """Wait until the page says that the server has everything."""
    page.locator("#keeping", has_text="kept").wait_for()

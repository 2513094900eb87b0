"""A whole call from the keyboard alone, in a real browser; nothing is lost when the server is killed on the way."""

import re
import time
from collections.abc import Iterator

import pypdfium2
import pytest
from playwright.sync_api import Browser, Page

from demo.load import keys
from kb.library import load
from kb.staff import Role
from server.store import Store
from tests.booking import call_about
from tests.browser.keyboard import Keyboard
from tests.browser.people import DESK, at_work
from tests.browser.test_pages import look_both
from tests.kb.desk.calling import ARTICLES
from tests.processes import Server, prepare

KEY, WORDS = keys()[0], "the needle is on nought and it is stone cold"


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    database = f"sqlite:///{tmp_path_factory.mktemp('desk') / 'homes.db'}"
    prepare(database, {"Wren": Role.DESK, "Ash": Role.DESK})
    with Server(database) as server:
        yield server


@pytest.fixture
def page(browser: Browser, served: Server) -> Iterator[Page]:
    page = at_work(browser, served.address, "Wren", DESK, bypass_csp=True)
    complaints: list[str] = []
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.reload()
    yield page
    page.context.close()
    assert complaints == []


@pytest.fixture
def hands(page: Page) -> Keyboard:
    return Keyboard(page)


@pytest.fixture
def at_fault(hands: Keyboard, served: Server) -> Keyboard:
    """A call that has come to its fault: the first test goes that way by its keys."""
    with Store(served.database) as store:
        id = call_about(store, load(ARTICLES), KEY, "low-pressure", words=WORDS, phone="01632 960211")
    hands.page.goto(f"{served.address}/desk/{id}")
    return hands


def test_a_whole_call_takes_a_few_keys_and_no_mouse(hands: Keyboard) -> None:
    began = time.monotonic()
    hands.key("n", *"nnnnnnnn")
    assert time.monotonic() - began < 20
    assert hands.heading == "Who rings?"
    assert hands.page.evaluate("document.activeElement.id") == "phone"

    hands.writes("01632 960211").key("Enter", "1").writes("the needle is on nought and it is stone cold")
    hands.key("Enter", "1", "1", "/").writes("0.4").key("Enter", "0", "0")
    assert hands.heading == "Stop here"
    pressed = hands.pressed
    hands.key("f", "1", "1")
    assert "Say" in hands.page.evaluate("getComputedStyle(document.querySelector('.say'), '::before').content")
    said = hands.page.locator(".say").inner_text()
    assert said.startswith("One of our engineers comes ")
    hands.key("1")
    # Finish, book, a window, booked: no word is typed.
    assert hands.pressed - pressed == 4

    assert re.match("Call of ", hands.heading)
    words = hands.page.locator(".paper").inner_text()
    for each in ("01632 960211", "Tanyard House", "Below 0.5 bar (0.4 bar)", "whoever is free", "Booked"):
        assert each in words
    # Nine for the start and the danger questions; the rest is about one for each thing that was said.
    assert hands.pressed <= 32


def test_another_time_is_agreed_from_the_keyboard_alone(at_fault: Keyboard) -> None:
    at_fault.key("j", "/")
    at_fault.writes("1/1").key("Tab").writes("8").key("Tab").writes("10").key("Tab", "Tab")
    at_fault.writes("they are away").key("Enter")
    said = at_fault.page.locator(".say").inner_text()
    assert " 1 January in the morning, between 8:00 and 10:00" in said


def test_a_caller_who_mentions_the_alarm_on_the_third_question_hears_what_to_do(at_fault: Keyboard) -> None:
    at_fault.key("1", "/").writes("0.4").key("Enter")
    pressed = at_fault.pressed
    at_fault.key("q").writes("the carbon monoxide alarm went off last night by the way").key("Enter")

    assert at_fault.heading.startswith("Any carbon monoxide alarm")
    at_fault.key("y")
    assert at_fault.heading == "Get out: carbon monoxide"
    assert at_fault.page.get_by_text("0800 111 999").first.is_visible()
    assert at_fault.pressed - pressed == 4
    at_fault.key("4")
    assert "Handed to the emergency service" in at_fault.page.locator(".paper").inner_text()


def test_one_key_asks_about_danger_from_anywhere_also_while_typing(at_fault: Keyboard) -> None:
    at_fault.key("d")
    assert "question 1 of 8" in at_fault.page.inner_text("main")
    at_fault.key(*"nnnnnnnn", "a", "/").writes("half a sent").key("F8")
    assert "question 1 of 8" in at_fault.page.inner_text("main")


def test_a_key_that_is_held_answers_one_question(hands: Keyboard) -> None:
    hands.key("n")
    for _ in range(7):
        hands.page.keyboard.down("n")
    hands.page.keyboard.up("n")
    hands.page.wait_for_timeout(300)
    assert "question 2 of 8" in hands.page.inner_text("main")


def test_a_key_that_is_sent_again_and_again_answers_one_question(hands: Keyboard) -> None:
    """Some keyboards send a key that is held as one press after another."""
    hands.key("n")
    for _ in range(40):
        hands.page.keyboard.press("n")
        hands.page.wait_for_timeout(30)
    assert "question 2 of 8" in hands.page.inner_text("main")


@pytest.mark.parametrize("gap", [0, 60, 120, 200])
def test_a_key_that_is_pressed_twice_answers_one_question(hands: Keyboard, gap: int) -> None:
    hands.key("n")
    hands.page.keyboard.press("n")
    hands.page.wait_for_timeout(gap)
    hands.page.keyboard.press("n")
    hands.page.wait_for_timeout(600)
    assert "question 2 of 8" in hands.page.inner_text("main")


def test_a_double_click_answers_one_question(hands: Keyboard) -> None:
    hands.key("n")
    button = hands.page.locator("button[value=no]")
    box = button.bounding_box()
    assert box
    hands.page.mouse.click(box["x"] + 20, box["y"] + 10, click_count=2, delay=20)
    hands.page.wait_for_timeout(600)
    assert "question 2 of 8" in hands.page.inner_text("main")


def test_danger_is_heard_at_once_whatever_page_has_just_come(at_fault: Keyboard) -> None:
    at_fault.page.reload()
    at_fault.page.keyboard.press("F8")
    at_fault.page.wait_for_function("document.querySelector('main').innerText.includes('question 1 of 8')")


def test_eight_noes_take_eight_keys_and_no_other_way_leads_past_them(hands: Keyboard) -> None:
    hands.key("n")
    call = hands.page.url
    for number in range(1, 9):
        assert f"question {number} of 8" in hands.page.inner_text("main")
        for part in ("who", "what", "pace"):
            hands.page.goto(f"{call}/{part}")
            assert f"question {number} of 8" in hands.page.inner_text("main")
        hands.key("Escape", "n")
    assert hands.heading == "Who rings?"


def test_two_calls_at_once_a_dropped_line_and_a_colleague_by_keyboard_alone(
    at_fault: Keyboard, browser: Browser, served: Server
) -> None:
    at_fault.key("1")
    first, stood = at_fault.page.url, at_fault.heading
    # A second one rings; the first waits in the list.
    at_fault.key("m", "n", "n", "n", "l")
    assert "Line dropped. No number to ring back on. If nobody answers, tell the emergency service." in (
        at_fault.page.inner_text("main")
    )
    at_fault.page.get_by_role("link", name="Somebody, nothing said yet").last.focus()
    at_fault.key("Enter")
    assert "The line dropped." in at_fault.page.inner_text("main")
    assert "question 3 of 8" in at_fault.page.inner_text("main")
    at_fault.key("n")
    assert "The line dropped." not in at_fault.page.inner_text("main")

    at_fault.page.goto(first)
    assert at_fault.heading == stood
    at_fault.key("f", "Escape", "c")
    assert at_fault.page.evaluate("document.activeElement.id") == "to"
    at_fault.key("A", "Tab", "Enter")
    assert at_fault.heading == "Calls"

    colleague = Keyboard(at_work(browser, served.address, "Ash", DESK, bypass_csp=True))
    link = colleague.page.locator(f"a[href='{first[first.index('/desk') :]}']")
    row = colleague.page.locator(".calls li").filter(has=link)
    assert "Yours" in row.inner_text()
    colleague.key(row.locator("kbd").inner_text())
    assert colleague.heading == stood
    colleague.key("0")
    colleague.page.context.close()


def test_a_household_reads_out_its_reference_and_the_desk_goes_on_there(hands: Keyboard, served: Server) -> None:
    household = hands.page.context.new_page()
    household.goto(f"{served.address}/help/low-pressure/none")
    household.get_by_role("link", name="Yes, there is a gauge").click()
    household.get_by_role("link", name="I cannot reach it").click()
    reference = household.locator(".reference b").inner_text()
    household.close()

    hands.key("n", *"nnnnnnnn", "Escape", "0", "Escape", "c").writes(reference.lower()).key("Enter")

    assert hands.heading == "Stop here"
    assert "Turn the boiler off and let it cool I cannot reach it" in hands.page.inner_text(".answers").replace(
        "\n", " "
    )


def test_nothing_is_lost_when_the_server_is_killed_between_any_two_steps(at_fault: Keyboard, served: Server) -> None:
    for pressed, heading in (
        (("1",), "What does the gauge say now?"),
        (("1",), "Was air let out of a radiator lately?"),
    ):
        at_fault.key(*pressed)
        served.restart()
        at_fault.page.reload()
        assert at_fault.heading == heading
    at_fault.key("v")
    assert "“the needle is on nought and it is stone cold”" in at_fault.page.locator(".paper").inner_text()


def test_a_colleague_goes_on_where_the_call_stands(at_fault: Keyboard, browser: Browser, served: Server) -> None:
    before = at_fault.heading
    colleague = Keyboard(at_work(browser, served.address, "Ash", DESK, bypass_csp=True))
    colleague.page.goto(at_fault.page.url)
    assert colleague.heading == before
    colleague.key("o", "1")
    assert colleague.heading == "What does the gauge say now?"
    colleague.page.context.close()
    at_fault.page.reload()
    assert "Ash holds this call" in at_fault.page.inner_text("main")


def test_the_clock_goes_on_and_the_reminder_comes_by_itself(at_fault: Keyboard) -> None:
    clock = at_fault.page.locator(".clock").inner_text()
    assert not at_fault.page.locator(".reminder").is_visible()
    at_fault.page.evaluate("document.querySelector('.reminder').dataset.due = '1'")
    at_fault.page.locator(".reminder").wait_for(state="visible", timeout=5000)
    assert at_fault.page.locator(".clock").inner_text() != clock


def test_without_script_the_same_buttons_lead_through_a_call(browser: Browser, served: Server) -> None:
    page = at_work(browser, served.address, "Wren", DESK, java_script_enabled=False)
    page.get_by_role("button", name="New call").click()
    for _ in range(8):
        page.get_by_role("button", name="No", exact=False).filter(has_text=re.compile(r"n\s*No$")).click()
    page.get_by_role("button", name="Go on without the home").click()
    page.get_by_role("textbox", name="Their own words").fill("no heating")
    page.get_by_role("button", name="Keep and find").click()
    page.locator("button[name=article]").first.click()
    page.get_by_role("button", name="They can't tell").click()
    assert page.locator("h1").count() == 1
    page.context.close()


def test_the_note_is_printed_on_one_sheet(at_fault: Keyboard) -> None:
    at_fault.key("1", "/").writes("0.4").key("Enter", "v")
    with pypdfium2.PdfDocument(at_fault.page.pdf(format="A4")) as printed:
        assert len(printed) == 1


def test_every_page_of_a_call_is_accessible_and_fits(hands: Keyboard) -> None:
    page = hands.page
    look_both(page, "list")
    hands.key("n")
    look_both(page, "danger")
    hands.key(*"nnnnnnnn").writes("01632 960211").key("Enter")
    look_both(page, "who")
    hands.key("1").writes("the needle is on nought").key("Enter")
    look_both(page, "what")
    call = page.url.removesuffix("/what")
    hands.key("1", "t")
    look_both(page, "step")
    hands.key("1")
    look_both(page, "reading")
    hands.key("0")
    look_both(page, "end")
    for part in ("pace", "book", "finish", "note", "brief"):
        page.goto(f"{call}/{part}")
        look_both(page, part)
        assert page.locator("h1").count() == 1
    page.goto(call)
    hands.key("d", "n", "y")
    look_both(page, "emergency")
    page.goto(f"{call}/book")
    hands.key("1", "1")
    for address, part in (("/desk/visits", "diary"), (f"/desk/visits/c-{call.rsplit('/', 1)[1]}", "move")):
        page.goto(call.rsplit("/desk", 1)[0] + address)
        look_both(page, part)

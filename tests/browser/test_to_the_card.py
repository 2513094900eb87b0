"""An engineer takes a home from an empty record to a signed handover and a card, on a phone, in under five minutes.

Nothing is typed twice but what was typed wrongly, two mistakes are caught, and a server that is killed on the way, at
any moment, loses no field that it said it kept.
"""

from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from urllib.parse import parse_qs

import pikepdf
import pytest
from playwright.sync_api import Browser, Locator, Page, Response

from demo.load import keys
from kb.handover import seal
from kb.handover.known import told_of
from kb.handover.record import Record
from server.store import Store
from tests.browser.effort import FIVE_MINUTES, Count
from tests.browser.recording import fill_section, go_on, signed_in, waiting_for
from tests.kb.handover.records import COMBI, FORM
from tests.processes import Server, prepare

MISTAKES = {"gas-m3": "0.425", "flow-c": "42", "return-c": "60"}
"""A decimal point that slipped, and two temperatures swapped."""

HOME = keys()[0]
FOUND = {"meter-kind": "metric", "insulated": "yes"}
"""What is asked of the demo's first home beyond what is asked of a new one: gas is paid before use, the drain pipe runs
outside."""

KNOWN = {"serial", "fitted", "warranty-ends", "next-service", "co-alarm-place", "co-alarm-ends", "stop-tap-place",
         "gas-valve-place", "switch-place", "filling-loop-place"}  # fmt: skip
"""What the register says of the demo's first home, and nobody may have to type."""

REST = ("hot-water", "condensate", "electrics", "controls", "customer", "left", "outcome")


@pytest.fixture
def server(address: str) -> Iterator[Server]:
    """A server which may be killed."""
    prepare(address)
    with Server(address) as server:
        yield server


@pytest.fixture
def site(tmp_path: Path) -> Iterator[str]:
    """The address of a server that stays alive."""
    database = f"sqlite:///{tmp_path / 'homes.db'}"
    prepare(database)
    with Server(database) as server:
        yield server.address


class Engineer:
    """Somebody who fills in a record, with what they did counted and what they were told was kept remembered."""

    def __init__(self, page: Page) -> None:
        self.page, self.count = page, Count()
        self.kept: dict[str, tuple[str, str]] = {}
        page.on("response", self._hear)

    def _hear(self, answer: Response) -> None:
        if answer.url.endswith("/entries") and answer.status == 200:
            sent = {name: values[0] for name, values in parse_qs(answer.request.post_data or "", True).items()}
            self.kept[sent["id"]] = (sent["field"], sent["text"])

    def tap(self, what: Locator) -> None:
        """Tap a button."""
        what.click()
        self.count.taps += 1

    def find(self, key: str) -> None:
        """Find a home by the first group of its key, and begin its record."""
        page, begun = self.page, key.partition("-")[0].lower()
        page.get_by_label("Key, phone").fill(begun)
        self.count.typed["find"] = 1
        self.count.letters += len(begun)
        with waiting_for(page, "**/engineer/found/*", self.count):
            self.tap(page.get_by_role("button", name="Find"))
        with waiting_for(page, "**/engineer/records/*", self.count):
            self.tap(page.get_by_role("button", name="Begin: "))

    def begin(self) -> None:
        """Begin the record of a new home."""
        with waiting_for(self.page, "**/engineer/records/*", self.count):
            self.tap(self.page.get_by_role("button", name="Begin with a new home"))

    def fill(self, section: str, values: dict[str, str]) -> None:
        """Fill in the section that is open, which is this one."""
        assert self.page.locator("form.section:not([hidden])").get_attribute("data-section") == section
        fill_section(self.page, values, self.count)

    def mend(self, section: str, said: str, values: dict[str, str]) -> None:
        """Read what is asked of the open section, with its working, and type again what was wrong."""
        panel = self.page.locator(f"#said-{section} .question")
        panel.get_by_text(said).wait_for()
        assert panel.locator(".working").count() > 0
        fill_section(self.page, {id: values[id] for id in MISTAKES}, self.count)
        self.page.keyboard.press("Tab")
        panel.wait_for(state="detached")

    def go_on(self) -> None:
        """Press the open section's button."""
        go_on(self.page, self.count)

    def sign(self) -> None:
        """Sign; the name is that of whoever signed in."""
        with waiting_for(self.page, "**/signed", self.count):
            self.tap(self.page.get_by_role("button", name="Sign", exact=True))


def walk(engineer: Engineer, values: dict[str, str]) -> Iterator[str]:
    """Fill in a record section by section, making two mistakes; says where it is, each time it might be cut off."""
    for section in ("appliance", "water", "flue"):
        engineer.fill(section, values)
        yield f"{section} is filled in"
        engineer.go_on()
    engineer.fill("gas", values | MISTAKES)
    engineer.mend("gas", "0.0425 m³ would fit", values)
    engineer.go_on()
    engineer.fill("combustion", values)
    engineer.go_on()
    engineer.fill("heating", values | MISTAKES)
    yield "two temperatures are swapped"
    engineer.mend("heating", "Are the two swapped", values)
    engineer.go_on()
    for section in REST:
        engineer.fill(section, values)
        if section != REST[-1]:
            engineer.go_on()
    with waiting_for(engineer.page, "**/sign", engineer.count):
        engineer.go_on()


def stored(database: str, page: Page) -> Record:
    """The record whose page is open, as the database has it."""
    with Store(database) as store:
        found = store.handovers.record(page.url.split("/records/")[1].partition("/")[0])
    assert found is not None
    return found


def what_is_left(database: str) -> dict[str, str]:
    """What has to be found out about the demo's home: everything that the register does not know."""
    with Store(database) as store:
        home = store.register.things(HOME)
    assert home is not None
    return {id: text for id, text in (COMBI | FOUND).items() if id not in told_of(FORM, home)}


def has_card(page: Page) -> bool:
    """Download the card: a PDF of two sides."""
    link = page.get_by_role("link", name="Print the card").get_attribute("href")
    card = page.context.request.get(str(link))
    assert card.headers["content-type"] == "application/pdf"
    with pikepdf.open(BytesIO(card.body())) as pdf:
        return len(pdf.pages) == 2


def nothing_typed_twice(count: Count) -> bool:
    """Whether only what was wrong was typed again."""
    return {id: times for id, times in count.typed.items() if times > 1} == dict.fromkeys(MISTAKES, 2)


def test_a_known_home_to_its_card_with_the_server_killed_on_the_way(browser: Browser, server: Server) -> None:
    context, page = signed_in(browser, server.address)
    engineer = Engineer(page)
    engineer.find(HOME)
    for moment in walk(engineer, what_is_left(server.database)):
        if moment == "water is filled in":
            page.once("request", lambda _: server.kill())
        elif moment == "flue is filled in":
            page.locator("#keeping", has_text="waiting for a signal").wait_for()
            server.start()
        elif moment == "two temperatures are swapped":
            server.restart()
    assert page.locator(".lacking, .question, .danger").count() == 0
    server.restart()
    engineer.sign()
    server.restart()

    record = stored(server.database, page)
    assert {entry.id: (entry.field, entry.text) for entry in record.entries}.items() >= engineer.kept.items()
    assert seal.is_unaltered(record)
    assert (record.key, record.signature.name) == (HOME, "Robin Thorne")
    assert has_card(page)
    assert server.lives == 5
    assert nothing_typed_twice(engineer.count)
    assert not KNOWN & engineer.count.typed.keys()
    print(engineer.count)
    assert engineer.count.seconds < FIVE_MINUTES, engineer.count
    context.close()


def test_a_new_home_to_its_card(browser: Browser, site: str) -> None:
    context, page = signed_in(browser, site)
    engineer = Engineer(page)
    engineer.begin()
    for _ in walk(engineer, COMBI):
        pass
    assert page.locator(".lacking, .question, .danger").count() == 0
    engineer.sign()
    assert has_card(page)
    page.get_by_role("link", name="The household's page").click()
    assert page.get_by_text("under the sink").count() == 1
    assert nothing_typed_twice(engineer.count)
    print(engineer.count)
    assert engineer.count.seconds < FIVE_MINUTES, engineer.count
    context.close()

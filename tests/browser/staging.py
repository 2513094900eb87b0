"""A firm on one database with its people at their own screens, whose server may be killed between any two steps."""

from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime

from playwright.sync_api import Browser, Locator, Page

from demo.load import load
from kb.staff import Account, Role
from server.staff.passwords import hashed
from server.store import Store
from tests.browser.desk import Keyboard
from tests.processes import PASSWORD, free_port, serving

PHONE, DESK = {"width": 360, "height": 740}, {"width": 1280, "height": 800}
STAFF = {"Wren Alder": Role.DESK, "Robin Thorne": Role.ENGINEER, "Hollis Marr": Role.OFFICE}


@dataclass
class Firm:
    """The demo's firm on a database, and everything that anybody typed so far."""

    database: str
    browser: Browser
    address: str = ""
    typed: list[str] = field(default_factory=list)
    killed: int = 0
    _port: int = field(default_factory=free_port)
    _served: ExitStack = field(default_factory=ExitStack)

    def open(self) -> None:
        """Begin to serve."""
        self.address, self._process = self._served.enter_context(serving(self.database, self._port))

    def kill(self) -> None:
        """Kill the server where it stands, and serve again; whoever is signed in stays so."""
        self._process.kill()
        self._served.close()
        self.open()
        self.killed += 1

    def close(self) -> None:
        """Stop serving."""
        self._served.close()

    def household(self) -> Page:
        """A phone without a script, as a household may have one."""
        return self._page(PHONE, java_script_enabled=False)

    def staff(self, name: str, screen: dict[str, int]) -> Page:
        """Somebody of the firm at a screen of their own, signed in."""
        page = self._page(screen)
        page.goto("/staff/sign-in")
        page.get_by_label("Name").fill(name)
        page.get_by_label("Password").fill(PASSWORD)
        page.get_by_role("button", name="Sign in").click()
        page.wait_for_url(f"**/{STAFF[name]}**")
        return page

    def _page(self, screen: dict[str, int], **how: bool) -> Page:
        page = self.browser.new_context(base_url=self.address, viewport=screen, **how).new_page()
        page.set_default_timeout(15_000)
        return page

    def types(self, hands: Keyboard, words: str) -> Keyboard:
        """Somebody types at a keyboard; what was typed once nobody has to type again."""
        self._once(words)
        return hands.writes(words)

    def type(self, into: Locator, words: str) -> None:
        """The same on a phone."""
        self._once(words)
        into.fill(words)

    def _once(self, words: str) -> None:
        assert words.casefold() not in self.typed, f"typed twice: {words}"
        self.typed.append(words.casefold())


@contextmanager
def firm_at_work(database: str, browser: Browser) -> Iterator[Firm]:
    """The demo's firm with one of each role, served until the end."""
    load(database)
    with Store(database) as store:
        for name, role in STAFF.items():
            store.staff.add(Account(name, frozenset({role})), hashed(PASSWORD), datetime.now(UTC))
    firm = Firm(database, browser)
    try:
        firm.open()
        yield firm
    finally:
        firm.close()
        for context in browser.contexts:
            context.close()

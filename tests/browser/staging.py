"""A firm on one database with its people at their own screens, whose server may be killed between any two steps."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field

from playwright.sync_api import Browser, Locator, Page

from kb.staff import Role
from tests.browser.keyboard import Keyboard
from tests.browser.people import PHONE, at_work
from tests.processes import Server, prepare

STAFF = {"Wren Alder": Role.DESK, "Robin Thorne": Role.ENGINEER, "Hollis Marr": Role.OFFICE}


@dataclass
class Firm:
    """The demo's firm as it is served, and everything that anybody typed so far."""

    server: Server
    browser: Browser
    typed: list[str] = field(default_factory=list)

    @property
    def killed(self) -> int:
        """How often the server was killed."""
        return self.server.lives - 1

    def kill(self) -> None:
        """Kill the server where it stands, and serve again; whoever is signed in stays so."""
        self.server.restart()

    def household(self) -> Page:
        """A phone without a script, as a household may have one."""
        address = self.server.address
        return self.browser.new_context(base_url=address, viewport=PHONE, java_script_enabled=False).new_page()

    def staff(self, name: str, screen: dict[str, int]) -> Page:
        """Somebody of the firm at a screen of their own, signed in."""
        return at_work(self.browser, self.server.address, name, screen)

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
    prepare(database, STAFF)
    with Server(database) as server:
        yield Firm(server, browser)
        for context in browser.contexts:
            context.close()

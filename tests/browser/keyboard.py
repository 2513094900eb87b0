"""The keys that are pressed at the desk, counted."""

from playwright.sync_api import Page


class Keyboard:
    """Hands on a keyboard that count what they press."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.pressed = 0

    def key(self, *keys: str) -> "Keyboard":
        """A key at a time, each when the page before it has come."""
        for each in keys:
            self.look()
            self.page.keyboard.press(each)
            self.pressed += 1
            self.page.locator("html:not([data-sent])").wait_for()
            self.page.wait_for_load_state("load")
            self.look()
        return self

    def look(self) -> None:
        """Wait, as people do, until there was something to read."""
        self.page.locator("html:not([data-settling])").wait_for()

    def writes(self, words: str) -> "Keyboard":
        """Words into the field that has the focus; typed words are counted as one press."""
        self.page.locator("input:focus, textarea:focus").wait_for()
        self.page.keyboard.type(words)
        self.pressed += 1
        return self

    @property
    def heading(self) -> str:
        return self.page.locator("h1").inner_text()

"""A firm's office as its owner has it: a browser, a process that may be killed, and a database of either kind."""

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Final

from playwright.sync_api import Browser, Page, expect
from sqlalchemy import create_engine, select

from kb.staff import Role
from server.store import Store
from server.store.tables import METADATA
from tests.browser.people import DESK, at_work
from tests.processes import ROOT, Server, prepare

OWNER: Final = "Wren Alder"


class Office:
    """The owner's browser at a process that can be killed at any moment and started again on the same data."""

    def __init__(self, browser: Browser, server: Server) -> None:
        self.server, self.database = server, server.database
        self.page: Page = at_work(browser, server.address, OWNER, DESK)

    def kill(self) -> None:
        """End the process in the middle of whatever it does, and start another."""
        self.server.restart()

    def send(self, file: Path, button: str) -> None:
        """Choose a table of homes on the page of lists and press a button."""
        self.page.goto("/office/list")
        self.page.get_by_label("A table of homes").set_input_files(file)
        self.page.get_by_role("button", name=button, exact=True).click(no_wait_after=True)

    def told(self, words: str) -> None:
        """Wait until the page says so."""
        expect(self.page.get_by_role("alert")).to_contain_text(words, timeout=60_000)

    def find(self, words: str) -> None:
        self.page.goto("/office")
        self.page.get_by_role("searchbox").fill(words)
        self.page.get_by_role("button", name="Find").click()

    def got(self, address: str) -> str:
        """What the browser is given at an address, with its session."""
        return self.page.request.get(address).text()

    def homes(self) -> int:
        with Store(self.database) as store:
            return len(store.homes())


@contextmanager
def office_at(browser: Browser, database: str) -> Iterator[Office]:
    """The demo's homes in a database, served, with its owner signed in."""
    prepare(database, {OWNER: Role.OFFICE})
    with Server(database) as server:
        office = Office(browser, server)
        yield office
        office.page.context.close()


def firm_with(folder: Path, before: str, after: str) -> Path:
    """The demo firm's file with something else in one place."""
    shutil.copy(ROOT / "demo/logo.svg", folder)
    words = (ROOT / "demo/firm.toml").read_text(encoding="utf-8")
    assert words.count(before) == 1
    (folder / "firm.toml").write_text(words.replace(before, after), encoding="utf-8")
    return folder / "firm.toml"


def tables_with(database: str, words: str) -> set[str]:
    """The tables in which some row holds these words."""
    engine = create_engine(database)
    with engine.connect() as connection:
        found = {
            table.name
            for table in METADATA.sorted_tables
            if any(words.casefold() in repr(tuple(row)).casefold() for row in connection.execute(select(table)))
        }
    engine.dispose()
    return found


def bytes_of(database: str) -> bytes:
    """All that SQLite's files hold, its log too; nothing for a database that is no file of ours."""
    if not database.startswith("sqlite:///"):
        return b""
    file = Path(database.removeprefix("sqlite:///"))
    return b"".join(each.read_bytes() for each in sorted(file.parent.glob(f"{file.name}*")))

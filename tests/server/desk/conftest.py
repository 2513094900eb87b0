"""The desk on the whole library, with two people signed in."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from html import unescape

import pytest
from starlette.testclient import TestClient

from kb.register import Address, Appliance, Need, Person, Record
from kb.staff import Account, Role
from server.app import create_app
from server.site import Site
from server.staff.passwords import hashed
from tests.builders import TODAY
from tests.server.conftest import SEALED, WEDNESDAY_NOON
from tests.server.html import Page

PASSWORD = "kettle lamp orbit moss"
NO_TO_ALL = 8


@pytest.fixture(scope="session")
def kept_password() -> str:
    return hashed(PASSWORD)


@dataclass
class Clock:
    now: datetime = WEDNESDAY_NOON

    def __call__(self) -> datetime:
        return self.now

    def on(self, **by: float) -> None:
        self.now += timedelta(**by)


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def staffed(site: Site, kept_password: str, clock: Clock) -> Site:
    for name in ("Wren", "Ash"):
        site.store.staff.add(Account(name, frozenset({Role.DESK})), kept_password, WEDNESDAY_NOON)
    site.store.staff.add(Account("Robin", frozenset({Role.ENGINEER})), kept_password, WEDNESDAY_NOON)
    return replace(site, now=clock)


@pytest.fixture
def desk(staffed: Site) -> Iterator["Handler"]:
    with signed_in(staffed, "Wren") as client:
        yield Handler(client)


@pytest.fixture
def colleague(staffed: Site) -> Iterator["Handler"]:
    with signed_in(staffed, "Ash") as client:
        yield Handler(client)


def signed_in(site: Site, name: str) -> TestClient:
    client = TestClient(create_app(site), follow_redirects=False, raise_server_exceptions=False)
    assert client.post("/staff/sign-in", data={"name": name, "password": PASSWORD}).status_code == 303
    return client


class Handler:
    """Somebody at the desk, who sees a page and does what its forms offer."""

    def __init__(self, client: TestClient) -> None:
        self.client = client
        self.call = ""
        self.text = ""

    def begin(self) -> "Handler":
        self.get("/desk")
        return self.post("/desk")

    def get(self, address: str) -> "Handler":
        answer = self.client.get(address, follow_redirects=True)
        self.status, self.text, self.at = answer.status_code, answer.text, str(answer.url.path)
        found = re.match(r"/desk/([\w-]+)", self.at)
        self.call = found[1] if found else self.call
        return self

    def post(self, address: str, **fields: str) -> "Handler":
        answer = self.client.post(address, data={**self.hidden, **fields})
        if answer.status_code == 303:
            return self.get(answer.headers["location"])
        self.status, self.text = answer.status_code, answer.text
        return self

    def does(self, verb: str, **fields: str) -> "Handler":
        return self.post(f"/desk/{self.call}/{verb}", **{name.replace("_", "-"): each for name, each in fields.items()})

    def see(self, part: str = "") -> "Handler":
        return self.get(f"/desk/{self.call}/{part}".rstrip("/"))

    def says(self, answer: str) -> "Handler":
        step = re.search(r'name="step" value="([^"]+)"', self.text)
        assert step, self.page.heading
        return self.does("asked", step=step[1], answer=answer)

    def clear(self) -> "Handler":
        for _ in range(NO_TO_ALL):
            self.says("no")
        return self

    def answers(self, words: str) -> "Handler":
        """Press the answer of these words, as the page offers it."""
        buttons = re.findall(r'name="piece" value="([^"]+)".*?<b>(.*?)(?: <span>.*?)?</b>', self.text)
        value = next(value for value, said in buttons if unescape(said.strip()) == words)
        return self.does("answer", branch=self.field("branch"), place=self.field("place"), piece=value)

    def reads(self, figure: str) -> "Handler":
        return self.does("answer", branch=self.field("branch"), place=self.field("place"), reading=figure)

    def field(self, name: str) -> str:
        found = re.search(rf'name="{name}" value="(\d+)"', self.text)
        assert found, name
        return found[1]

    @property
    def hidden(self) -> dict[str, str]:
        found = re.search(r'name="csrf" value="(\w+)"><input type="hidden" name="id" value="(\w+)"', self.text)
        assert found, self.text[:3000]
        return {"csrf": found[1], "id": found[2]}

    @property
    def page(self) -> Page:
        return Page(self.text)


@pytest.fixture
def registered(site: Site) -> Record:
    person = Person("Robin Marsh", phones=("+441632960111",), needs=(Need("over-65", TODAY),))
    record = Record(SEALED.key, (Appliance("Marlpit C 28", "marlpit-c", serial="S 7"),), SEALED.known, SEALED.places,
                    Address(("4 Any Street",), "Anytown", "ZZ9 9ZZ"), (person,))  # fmt: skip
    assert site.store.register.put(record, "office", site.store.register.things(SEALED.key)) == ()
    return record


def faulty(desk: Handler, words: str = "the gauge is right down and it has stopped") -> Handler:
    desk.begin().clear().does("home", key="none").does("told", words=words)
    return desk.does("fault", article="low-pressure")

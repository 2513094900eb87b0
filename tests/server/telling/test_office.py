"""The whole way: a household presses the button, and a real server has the mail."""

import logging
import re
import threading
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from kb.article import Pace
from server.app import create_app
from server.settings import HookSettings, MailSettings, Settings
from server.site import Site
from server.store import StoreUnavailable
from server.store.requests import LONGEST
from server.telling.hands import Hand
from server.telling.office import Office, couriers
from tests.requests import NOW, asked
from tests.server.conftest import SEALED
from tests.server.household.ends import end_of_pace
from tests.server.telling.conftest import Hook, Mailbox

PATIENCE = 20


def ask(client: TestClient, end: str) -> None:
    """Press the button as a household does."""
    form = re.search(r'name="form" value="(\w+)"', client.get(f"{end}/call-me").text)
    assert form
    sent = client.post(f"{end}/call-me", data={"form": form[1], "phone": "01632 960001", "consent": "yes"})
    assert sent.status_code == 303, sent.text


def told_to(mailbox: Mailbox, hook: Hook, tmp_path: Path) -> Settings:
    (tmp_path / "secret").write_text("kettle lamp orbit moss")
    mail = MailSettings("127.0.0.1", mailbox.port, "none", "a@b.example", "c@d.example")
    return replace(Settings.read({}), mail=mail, hook=HookSettings(hook.url, tmp_path / "secret"))


def test_the_firm_has_it_at_once_by_mail_and_by_webhook(
    site: Site, mailbox: Mailbox, hook: Hook, tmp_path: Path
) -> None:
    ways = couriers(told_to(mailbox, hook, tmp_path), site.firm, site.now)
    end = f"/h/{SEALED.key}" + end_of_pace(site.library, Pace.TODAY, site.known(SEALED))
    with TestClient(create_app(site, ways), follow_redirects=False) as client:
        ask(client, end)
        assert mailbox.arrived.wait(PATIENCE)
        assert hook.arrived.wait(PATIENCE)

    assert site.store.outbox.waiting() == ()
    assert len(mailbox.mails) == len(hook.posts) == 1
    assert SEALED.key.encode() in hook.posts[0][2]


def test_what_waited_when_the_server_stopped_is_told_when_it_starts(
    site: Site, mailbox: Mailbox, hook: Hook, tmp_path
) -> None:
    site.store.requests.put(asked(), ["mail"], "somewhere", site.now())
    ways = couriers(told_to(mailbox, hook, tmp_path), site.firm, site.now)

    with TestClient(create_app(site, ways)):
        assert mailbox.arrived.wait(PATIENCE)


def test_without_any_way_the_request_waits_for_the_desk(site: Site) -> None:
    with TestClient(create_app(site), follow_redirects=False) as client:
        ask(client, end_of_pace(site.library, Pace.TODAY))

    assert len(site.store.requests.waiting("Wren")) == 1
    assert site.store.outbox.waiting() == ()


def test_nothing_runs_on_when_the_server_has_stopped(site: Site, mailbox: Mailbox, hook: Hook, tmp_path: Path) -> None:
    with TestClient(create_app(site, couriers(told_to(mailbox, hook, tmp_path), site.firm, site.now))):
        assert {"tundish-mail", "tundish-webhook", "tundish-forgetting"} <= {t.name for t in threading.enumerate()}

    assert not [thread for thread in threading.enumerate() if thread.name.startswith("tundish-")]


def test_what_is_old_is_forgotten_while_the_server_runs(site: Site) -> None:
    site.store.requests.put(asked(), [], "somewhere", site.now() - LONGEST - timedelta(days=1))
    with Office(site).at_work():
        pass

    assert site.store.requests.waiting("Wren") == ()


def test_a_hand_works_when_it_is_called_and_survives_trouble(caplog: pytest.LogCaptureFixture) -> None:
    worked, times = threading.Semaphore(0), []

    def work() -> timedelta:
        times.append(NOW)
        worked.release()
        if len(times) < 3:
            raise StoreUnavailable("an inner word")
        return timedelta(hours=1)

    with caplog.at_level(logging.ERROR, "tundish"), Hand("counting", work) as hand:
        for _ in range(4):
            assert worked.acquire(timeout=PATIENCE)
            hand.call()

    assert caplog.messages == ["The work 'counting' must wait: the store cannot be reached."]


def test_only_the_ways_that_are_set_up_are_there(site: Site) -> None:
    assert couriers(Settings.read({}), site.firm, site.now) == ()

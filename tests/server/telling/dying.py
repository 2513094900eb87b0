"""A server's life in a process of its own, which may be cut off after any of its steps."""

import os
import signal
from pathlib import Path
from typing import Any

from sqlalchemy import Engine, event

from server.settings import MailSettings
from server.store import Store
from server.store.outbox import Letter
from server.telling.courier import Still
from server.telling.mail import Mail
from server.telling.rounds import Round
from tests.builders import firm
from tests.requests import Clock, asked


def mail_to(port: int) -> Mail:
    """What tells by mail to a server on this machine."""
    return Mail(MailSettings("127.0.0.1", port, "none", "a@b.example", "c@d.example"), firm(), patience=10)


class Steps:
    """Counts the steps of this process, writes down the last one, and dies right after a certain one."""

    def __init__(self, last: int, notes: Path) -> None:
        self._last = last
        self._notes = notes
        self._taken = 0

    def take(self, what: str) -> None:
        self._taken += 1
        if self._taken == self._last:
            self._notes.write_text(what)
            os.kill(os.getpid(), signal.SIGKILL)


class Watched:
    """Mail whose beginning and end are steps too."""

    way = "mail"

    def __init__(self, mail: Mail, steps: Steps) -> None:
        self._mail = mail
        self._steps = steps

    def tell(self, letter: Letter, still: Still) -> None:
        self._steps.take("claimed")
        self._mail.tell(letter, still)
        self._steps.take("told")


def live(address: str, port: int, last: int, notes: Path) -> None:
    """Take a request and tell it, dying after the step `last`: each statement and each end of a transaction is one."""
    steps = Steps(last, notes)
    with Store(address) as store:

        def stated(connection: Any, cursor: Any, statement: str, *more: Any) -> None:
            steps.take(statement)

        def committed(connection: Any) -> None:
            steps.take("about to commit")

        event.listen(Engine, "after_cursor_execute", stated)
        event.listen(Engine, "commit", committed)
        clock = Clock()
        store.requests.put(asked(), ["mail"], "somewhere", clock())
        steps.take("put")
        Round(store.outbox, Watched(mail_to(port), steps), clock, clock.seconds).go()


def empty(address: str, port: int) -> None:
    """Tell all there is, beside others who do the same."""
    clock = Clock()
    with Store(address) as store:
        Round(store.outbox, mail_to(port), clock, clock.seconds).go()

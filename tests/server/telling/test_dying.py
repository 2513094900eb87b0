"""A server that is killed between any two of its steps, and two that share a database."""

from collections import Counter
from email import message_from_bytes
from pathlib import Path

from server.store import Store
from server.store.outbox import LEASE
from server.telling.rounds import Round
from tests.processes import FORKS
from tests.requests import NOW, Clock, asked
from tests.server.store.building import tamper
from tests.server.telling.conftest import Mailbox
from tests.server.telling.dying import empty, live, mail_to

KILLED = -9


def told(mailbox: Mailbox) -> Counter[str]:
    """How often each letter came, by its Message-ID."""
    return Counter(message_from_bytes(mail.original_content or b"")["Message-ID"] for mail in mailbox.mails)


def restart(store: Store, mailbox: Mailbox) -> None:
    """The server comes back after its lease, and the household, who saw no answer, sends the same form again."""
    store.requests.put(asked(), ["mail"], "somewhere", NOW)
    later = Clock(NOW + LEASE)
    Round(store.outbox, mail_to(mailbox.port), later, later.seconds).go()


def test_killed_between_any_two_steps_it_tells_what_was_asked_once(
    address: str, mailbox: Mailbox, tmp_path: Path
) -> None:
    twice = []
    for step in range(1, 100):
        process = FORKS.Process(target=live, args=(address, mailbox.port, step, tmp_path / "last"))
        process.start()
        process.join(60)
        if process.exitcode == 0:
            break
        assert process.exitcode == KILLED
        with Store(address) as store:
            restart(store, mailbox)
            assert len(store.requests.waiting("Wren")) == 1
            assert store.outbox.waiting() == ()
        ((key, times),) = told(mailbox).items()
        if times > 1:
            twice.append((tmp_path / "last").read_text().split()[0])
        assert times <= 2, key
        mailbox.mails.clear()
        tamper(address, "DELETE FROM outbox", "DELETE FROM requests", "DELETE FROM request_tries")

    # Between the server's yes and the note of it: there, and nowhere else, is it told twice, under one Message-ID.
    assert step > 12
    assert twice[0] == "told"
    assert set(twice) <= {"told", "BEGIN", "UPDATE", "about"}
    assert len(twice) <= 4


def test_two_servers_on_one_database_tell_everything_once(address: str, mailbox: Mailbox) -> None:
    with Store(address) as store:
        for number in range(30):
            store.requests.put(asked(number), ["mail"], f"address {number}", NOW)
        both = [FORKS.Process(target=empty, args=(address, mailbox.port)) for _ in range(2)]
        for process in both:
            process.start()
        for process in both:
            process.join(60)
        assert [process.exitcode for process in both] == [0, 0]
        assert store.outbox.waiting() == ()

    assert len(told(mailbox)) == 30
    assert set(told(mailbox).values()) == {1}

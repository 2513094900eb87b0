"""A mail handed to a real server, read back as the standards say."""

import socket
import threading
from email import message_from_bytes
from email.message import EmailMessage
from email.policy import default
from email.utils import parsedate_to_datetime
from pathlib import Path

import pytest

from kb.article import Pace
from server.settings import MailSettings
from server.telling.courier import NotTold
from server.telling.mail import Mail
from tests.builders import firm
from tests.requests import NOW, asked, letter
from tests.server.telling.conftest import Mailbox, knows


def nothing() -> None:
    """There is time enough."""


def mail(port: int, trust=None, **changes) -> Mail:
    fields = {"host": "127.0.0.1", "port": port, "security": "none", "sender": "calls@heating.example"}
    settings = MailSettings(**{**fields, "to": "office@heating.example", **changes})
    return Mail(settings, firm(), trust, patience=5, last_patience=5) if trust else Mail(settings, firm(), patience=5)


def read(mailbox: Mailbox) -> EmailMessage:
    (envelope,) = mailbox.mails
    message = message_from_bytes(envelope.original_content, policy=default)
    assert isinstance(message, EmailMessage)
    return message


def test_the_office_reads_whom_to_call_how_soon_and_what_was_tried(mailbox: Mailbox) -> None:
    mail(mailbox.port).tell(letter(), nothing)

    body = read(mailbox).get_content()
    assert "A household asks you to call: today." in body
    assert "Number:    +441632960001" in body
    assert "Name:      Any Person" in body
    assert "Told them: a call by Wednesday 25 November, 17:30" in body
    assert "The gauge is too low. It led to: An engineer today." in body
    assert "- Is any water dripping? No – “nothing”" in body
    assert "Key of their card: KM3EQ-PKFPJ-TCQ9A" in body


def test_without_consent_nothing_of_what_was_tried_is_told(mailbox: Mailbox) -> None:
    mail(mailbox.port).tell(letter(asked(tried=None)), nothing)

    body = read(mailbox).get_content()
    assert "They did not send along what they tried. Begin with the danger questions." in body
    assert not [word for word in ("gauge", "KM3EQ", "dripping") if word in body]


def test_the_envelope_and_the_headers_are_those_of_a_machines_own_mail(mailbox: Mailbox) -> None:
    mail(mailbox.port).tell(letter(asked(pace=Pace.MAKE_SAFE)), nothing)

    message = read(mailbox)
    assert (mailbox.mails[0].mail_from, mailbox.mails[0].rcpt_tos) == (
        "calls@heating.example",
        ["office@heating.example"],
    )
    # RFC 5322, 3.6: From and Date there must be; 3.6.4: a Message-ID in angle brackets, for ever its own.
    assert message["Message-ID"] == f"<{'a' * 32}@heating.example>"
    assert parsedate_to_datetime(message["Date"]) == NOW
    # RFC 3834, 5: so that no machine answers it.
    assert message["Auto-Submitted"] == "auto-generated"
    assert message["Subject"].startswith("Please call: as soon as you can (")
    assert not [word for word in ("Any Person", "1632") if word in str(message.items())]


def test_every_line_can_travel_anywhere(mailbox: Mailbox) -> None:
    mail(mailbox.port).tell(letter(asked(name="Ł" * 60)), nothing)

    # RFC 5321, 4.5.3.1.6: a line has at most 1000 octets; 7 bits need no extension.
    content = mailbox.mails[0].original_content
    assert content.isascii()
    assert max(map(len, content.split(b"\r\n"))) < 998


def test_two_tries_send_the_very_same(mailbox: Mailbox) -> None:
    for _ in range(2):
        mail(mailbox.port).tell(letter(), nothing)

    first, second = (envelope.original_content for envelope in mailbox.mails)
    assert first == second


@pytest.mark.parametrize("security", ["starttls", "tls"])
def test_it_signs_in_under_tls_with_the_password_in_its_file(
    mail_server, proof, trusting, tmp_path: Path, security: str
) -> None:
    (tmp_path / "password").write_text("kettle lamp\nanother line\n")
    tls = {"tls": proof} if security == "tls" else {"tls_context": proof, "require_starttls": True}
    # aiosmtpd counts only STARTTLS as TLS.
    options = {"auth_required": True} if security == "starttls" else {"auth_require_tls": False}
    mailbox = mail_server(authenticator=knows("tundish", "kettle lamp"), **tls, **options)
    right = {"security": security, "user": "tundish", "password_file": tmp_path / "password"}

    mail(mailbox.port, trusting, **right).tell(letter(), nothing)

    assert len(mailbox.mails) == mailbox.signed_in == 1
    (tmp_path / "password").write_text("wrong")
    with pytest.raises(NotTold, match="refuses the user or the password"):
        mail(mailbox.port, trusting, **right).tell(letter(), nothing)


@pytest.mark.parametrize("security", ["starttls", "tls"])
def test_a_server_that_nobody_vouches_for_is_told_nothing(mail_server, proof, security: str) -> None:
    mailbox = mail_server(**({"tls": proof} if security == "tls" else {"tls_context": proof}))

    with pytest.raises(NotTold, match="cannot be trusted"):
        mail(mailbox.port, security=security).tell(letter(), nothing)

    assert mailbox.mails == []


def test_a_server_without_tls_is_told_nothing_where_tls_is_wanted(mailbox: Mailbox, trusting) -> None:
    with pytest.raises(NotTold, match="offers no TLS"):
        mail(mailbox.port, trusting, security="starttls").tell(letter(), nothing)

    assert mailbox.mails == []


@pytest.mark.parametrize("answer", ["451 later", "554 never"])
def test_what_the_server_refuses_is_not_told(mailbox: Mailbox, answer: str) -> None:
    mailbox.answer_to_data = answer
    with pytest.raises(NotTold, match=f"its answer {answer[:3]}"):
        mail(mailbox.port).tell(letter(), nothing)

    mailbox.answer_to_data, mailbox.answer_to_recipient = "250 ok", answer
    with pytest.raises(NotTold, match=f"its answer {answer[:3]}"):
        mail(mailbox.port).tell(letter(), nothing)
    assert mailbox.mails == []


def test_a_server_that_is_not_there_is_told_of_plainly() -> None:
    with socket.socket() as unheard:
        unheard.bind(("127.0.0.1", 0))

        with pytest.raises(NotTold, match="found that it cannot be reached") as told:
            mail(unheard.getsockname()[1]).tell(letter(), nothing)

    assert not [word for word in ("Any Person", "1632", "Errno") if word in str(told.value)]


def test_a_server_that_says_nothing_is_left_after_a_while() -> None:
    with socket.socket() as silent:
        silent.bind(("127.0.0.1", 0))
        silent.listen()
        settings = MailSettings("127.0.0.1", silent.getsockname()[1], "none", "a@b.example", "c@d.example")

        with pytest.raises(NotTold, match="cannot be reached"):
            Mail(settings, firm(), patience=0.2).tell(letter(), nothing)


def test_who_is_too_late_hands_nothing_over(mailbox: Mailbox) -> None:
    def too_late() -> None:
        raise NotTold("to be in time", "that it is too late", "Try again.")

    with pytest.raises(NotTold, match="too late"):
        mail(mailbox.port).tell(letter(), too_late)

    assert mailbox.mails == []


def test_no_goodbye_is_waited_for(mailbox: Mailbox) -> None:
    """A server that takes the mail and then says nothing more does not keep the note of it waiting."""
    listening, done = socket.create_server(("127.0.0.1", 0)), threading.Event()

    def serve() -> None:
        with listening, listening.accept()[0] as client, client.makefile("rb") as heard:
            client.sendall(b"220 here\r\n")
            for line in heard:
                if line.startswith(b"DATA"):
                    client.sendall(b"354 go on\r\n")
                elif line.startswith(b"QUIT"):
                    done.wait(30)
                    return
                elif line == b".\r\n" or line.startswith((b"EHLO", b"ehlo", b"MAIL", b"mail", b"RCPT", b"rcpt")):
                    client.sendall(b"250 ok\r\n")
                elif line.startswith(b"data"):
                    client.sendall(b"354 go on\r\n")
                elif line.startswith(b"quit"):
                    done.wait(30)
                    return

    thread = threading.Thread(target=serve)
    thread.start()
    port = listening.getsockname()[1]
    mail(port).tell(letter(), nothing)
    assert thread.is_alive()
    done.set()
    thread.join(10)

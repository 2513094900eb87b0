"""How is the firm told by mail, whatever server takes it?"""

import smtplib
import ssl
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from email.message import EmailMessage
from email.policy import SMTP
from email.utils import format_datetime
from typing import Final
from urllib.parse import urlsplit

from kb.firm import Firm
from server.settings import MailSettings, WrongSettings, secret_in
from server.store.outbox import Letter
from server.telling.courier import NotTold, Still
from server.telling.words import subject, text

PATIENCE: Final = 20.0
"""Seconds to wait for each answer of a server."""

LAST_PATIENCE: Final = 100.0
"""Seconds to wait for the last answer: a server that looks a mail over takes its time, and one asked twice has two."""

_LATER: Final = "It is tried again by itself."


@dataclass(frozen=True, slots=True)
class Mail:
    """Tells by SMTP (RFC 5321), with STARTTLS or TLS from the first byte."""

    settings: MailSettings
    firm: Firm
    trust: Callable[[], ssl.SSLContext] = ssl.create_default_context
    patience: float = PATIENCE
    last_patience: float = LAST_PATIENCE
    way: str = "mail"

    def tell(self, letter: Letter, still: Still) -> None:
        """Hand a mail to the server; raises NotTold."""
        message = message_for(letter, self.settings, self.firm).as_bytes(policy=SMTP)
        try:
            server = self._open()
            try:
                self._hand_over(server, message, still)
            finally:
                # The mail is the server's or it is not; to wait for its goodbye would only delay the note of it.
                with suppress(OSError, smtplib.SMTPException):
                    server.putcmd("quit")
                server.close()
        except (OSError, smtplib.SMTPException, WrongSettings) as error:
            raise self._not_told(error) from error

    def _open(self) -> smtplib.SMTP:
        here = self.settings
        if here.security == "tls":
            server: smtplib.SMTP = smtplib.SMTP_SSL(here.host, here.port, timeout=self.patience, context=self.trust())
        else:
            server = smtplib.SMTP(here.host, here.port, timeout=self.patience)
        try:
            server.ehlo_or_helo_if_needed()
            if here.security == "starttls":
                server.starttls(context=self.trust())
                server.ehlo()
            if here.user and here.password_file:
                server.login(here.user, secret_in(here.password_file))
        except BaseException:
            server.close()
            raise
        return server

    def _hand_over(self, server: smtplib.SMTP, message: bytes, still: Still) -> None:
        code, said = server.mail(self.settings.sender)
        if code != 250:
            raise smtplib.SMTPSenderRefused(code, said, self.settings.sender)
        code, said = server.rcpt(self.settings.to)
        if code not in (250, 251):
            raise smtplib.SMTPResponseException(code, said)
        still()
        if server.sock is not None:
            server.sock.settimeout(self.last_patience)
        code, said = server.data(message)
        if code != 250:
            raise smtplib.SMTPDataError(code, said)

    def _not_told(self, error: Exception) -> NotTold:
        expected = f"the mail server {self.settings.host}:{self.settings.port} to take a mail"
        match error:
            case smtplib.SMTPAuthenticationError():
                return NotTold(expected, "that it refuses the user or the password", "Mend TUNDISH_MAIL_USER.")
            case smtplib.SMTPNotSupportedError():
                return NotTold(expected, "that it offers no TLS or no way to sign in", "Mend TUNDISH_MAIL_SECURITY.")
            case smtplib.SMTPResponseException():
                return NotTold(expected, f"its answer {error.smtp_code}", f"See its log. {_LATER}")
            case ssl.SSLError():
                return NotTold(expected, "a certificate or a TLS that cannot be trusted", "Mend TUNDISH_MAIL_HOST.")
            case WrongSettings():
                return NotTold(expected, "that the password's file cannot be read", "Mend TUNDISH_MAIL_PASSWORD_FILE.")
        return NotTold(expected, "that it cannot be reached", f"See that it runs. {_LATER}")


def message_for(letter: Letter, settings: MailSettings, firm: Firm) -> EmailMessage:
    """The mail for a letter: the same for every try, its Message-ID too, by which a mailbox can drop a second one."""
    message = EmailMessage(policy=SMTP)
    message["From"] = settings.sender
    message["To"] = settings.to
    message["Subject"] = subject(letter.request)
    message["Date"] = format_datetime(letter.request.at)
    message["Message-ID"] = f"<{letter.key}@{urlsplit(firm.site).hostname}>"
    # RFC 3834: no machine shall answer a machine.
    message["Auto-Submitted"] = "auto-generated"
    message.set_content(text(letter.request, firm), cte="quoted-printable")
    return message

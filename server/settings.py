"""What differs from machine to machine; the one module that reads the environment."""

import os
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final, Literal, Self, TypeAlias, cast, get_args
from urllib.parse import urlsplit

PREFIX: Final = "TUNDISH_"
HERE: Final = Path(__file__).parent.parent

Security: TypeAlias = Literal["starttls", "tls", "none"]

_OWN_MACHINE: Final = ("127.0.0.1", "localhost", "::1")
_PORTS: Final[Mapping[Security, int]] = {"starttls": 587, "tls": 465, "none": 25}
_MAILBOX: Final = re.compile(r"[\w.+%-]+@[A-Za-z0-9-]+(\.[A-Za-z0-9-]+)*", re.ASCII)
_SHORTEST_SECRET: Final = 16

NOBODY_TOLD: Final = (
    "Nobody is told when a household asks to be called: neither mail nor a webhook is set up. "
    "Requests appear only on the desk's list of calls, so somebody must look there. "
    f"To be told, set {PREFIX}MAIL_HOST and {PREFIX}MAIL_TO, or {PREFIX}WEBHOOK_URL and {PREFIX}WEBHOOK_SECRET_FILE."
)
"""What to say to whoever serves a site that tells nobody."""

Said: TypeAlias = Callable[[str, object], str]


class WrongSettings(Exception):
    """A setting cannot be used; the message names it, what was expected and what to do."""


@dataclass(frozen=True, slots=True)
class MailSettings:
    """The server that takes the firm's mail, and from whom to whom it goes."""

    host: str
    port: int
    security: Security
    sender: str
    to: str
    user: str = ""
    password_file: Path | None = None


@dataclass(frozen=True, slots=True)
class HookSettings:
    """Where another program of the firm listens, and the file with the secret that signs what it is told."""

    url: str
    secret_file: Path


@dataclass(frozen=True, slots=True)
class Settings:
    """Where things lie on this machine, where to serve, and how the firm is told of requests to call."""

    articles: Path
    firm: Path
    ranges: Path
    database: str
    host: str
    port: int
    mail: MailSettings | None = None
    hook: HookSettings | None = None

    @property
    def tells(self) -> bool:
        """Whether there is a way to tell the firm of a request to call."""
        return bool(self.mail or self.hook)

    @classmethod
    def read(cls, environment: Mapping[str, str] = os.environ) -> Self:
        """The settings of this machine; what the environment does not say is as the demo has it."""

        def said(name: str, otherwise: object) -> str:
            return environment.get(PREFIX + name) or str(otherwise)

        return cls(
            articles=Path(said("ARTICLES", HERE / "articles/en")),
            firm=Path(said("FIRM", HERE / "demo/firm.toml")),
            ranges=Path(said("RANGES", HERE / "demo/ranges")),
            database=said("DATABASE", f"sqlite:///{HERE / 'var/tundish.db'}"),
            host=said("HOST", "127.0.0.1"),
            port=_port("PORT", said("PORT", 8480)),
            mail=_mail(said),
            hook=_hook(said),
        )


def secret_in(file: Path) -> str:
    """The first line of a file that holds a secret; raises WrongSettings if there is none."""
    try:
        secret = file.read_text(encoding="utf-8").split("\n", 1)[0].strip()
    except (OSError, UnicodeDecodeError):
        secret = ""
    if not secret:
        raise WrongSettings(
            f"Expected a secret in the first line of {file}, found none. Write it there for this account."
        )
    return secret


def _mail(said: Said) -> MailSettings | None:
    host = said("MAIL_HOST", "")
    if not host:
        return None
    security = said("MAIL_SECURITY", "starttls")
    if security not in get_args(Security):
        raise _wrong("MAIL_SECURITY", "starttls, tls or none", security)
    chosen = cast("Security", security)
    if chosen == "none" and host not in _OWN_MACHINE:
        raise _wrong("MAIL_SECURITY", f"starttls or tls, since mail to {host} is about people", chosen)
    to = _mailbox("MAIL_TO", said("MAIL_TO", ""))
    file = said("MAIL_PASSWORD_FILE", "")
    return MailSettings(
        host=host,
        port=_port("MAIL_PORT", said("MAIL_PORT", _PORTS[chosen])),
        security=chosen,
        sender=_mailbox("MAIL_FROM", said("MAIL_FROM", to)),
        to=to,
        user=said("MAIL_USER", ""),
        password_file=_secret_file("MAIL_PASSWORD_FILE", file) if file else None,
    )


def _hook(said: Said) -> HookSettings | None:
    url = said("WEBHOOK_URL", "")
    if not url:
        return None
    try:
        parts = urlsplit(url)
        sound = parts.scheme in ("https", "http") and bool(parts.hostname) and parts.port != 0 and "@" not in url
    except ValueError:
        raise _wrong("WEBHOOK_URL", "an address like https://office.example/calls", url) from None
    if not sound or (parts.scheme == "http" and parts.hostname not in _OWN_MACHINE):
        raise _wrong("WEBHOOK_URL", "an https address without a name or password in it", url)
    file = _secret_file("WEBHOOK_SECRET_FILE", said("WEBHOOK_SECRET_FILE", ""))
    if len(secret_in(file)) < _SHORTEST_SECRET:
        raise _wrong("WEBHOOK_SECRET_FILE", f"a secret of {_SHORTEST_SECRET} characters or more", "a shorter one")
    return HookSettings(url, file)


def _port(name: str, port: str) -> int:
    if not port.isascii() or not port.isdigit() or not 0 < int(port) < 65536:
        raise _wrong(name, "a port from 1 to 65535", port)
    return int(port)


def _mailbox(name: str, written: str) -> str:
    if not _MAILBOX.fullmatch(written):
        raise _wrong(name, "a mail address like office@heating.example", written)
    return written


def _secret_file(name: str, written: str) -> Path:
    file = Path(written)
    if not written or not file.is_file():
        raise _wrong(name, "the name of a file with the secret in its first line", written)
    secret_in(file)
    return file


def _wrong(name: str, expected: str, found: str) -> WrongSettings:
    return WrongSettings(f"Expected {PREFIX}{name} to be {expected}, found {found!r}. Set another one.")

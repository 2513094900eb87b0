"""Real servers on ports of their own: one that takes mail, one that takes webhooks, and an authority both may have."""

import asyncio
import ssl
import threading
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any

import pytest
import trustme
from aiosmtpd.smtp import SMTP, AuthResult, Envelope, LoginPassword, Session

from server.store import Store


@pytest.fixture
def store(address: str) -> Iterator[Store]:
    """A store without any home or request."""
    with Store(address) as store:
        yield store


@pytest.fixture(scope="session")
def authority() -> trustme.CA:
    """Somebody who vouches for the tests' own servers."""
    return trustme.CA()


@pytest.fixture
def trusting(authority: trustme.CA) -> Callable[[], ssl.SSLContext]:
    """What trusts the tests' authority and nobody else."""

    def context() -> ssl.SSLContext:
        made = ssl.create_default_context(cafile=None, cadata="")
        authority.configure_trust(made)
        return made

    return context


@pytest.fixture(scope="session")
def proof(authority: trustme.CA) -> ssl.SSLContext:
    """What a server shows who wants to know that it is 127.0.0.1."""
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    authority.issue_cert("127.0.0.1").configure_cert(context)
    return context


@dataclass
class Mailbox:
    """Takes mail, or answers it as told; every mail is kept as it came."""

    port: int = 0
    mails: list[Envelope] = field(default_factory=list)
    arrived: threading.Event = field(default_factory=threading.Event)
    signed_in: int = 0
    answer_to_data: str = "250 taken"
    answer_to_recipient: str = "250 ok"

    async def handle_RCPT(  # noqa: N802
        self, server: SMTP, session: Session, envelope: Envelope, address: str, options: list[str]
    ) -> str:
        envelope.rcpt_tos.append(address)
        return self.answer_to_recipient

    async def handle_DATA(self, server: SMTP, session: Session, envelope: Envelope) -> str:  # noqa: N802
        if self.answer_to_data.startswith("250"):
            self.mails.append(envelope)
            self.signed_in += bool(session.authenticated)
            self.arrived.set()
        return self.answer_to_data


@pytest.fixture(scope="session")
def loop() -> Iterator[asyncio.AbstractEventLoop]:
    """What the servers of mail run on, in a thread of their own."""
    loop = asyncio.new_event_loop()
    thread = threading.Thread(target=loop.run_forever, daemon=True)
    thread.start()
    yield loop
    loop.call_soon_threadsafe(loop.stop)
    thread.join(10)
    loop.close()


@pytest.fixture
def mail_server(loop: asyncio.AbstractEventLoop) -> Iterator[Callable[..., Mailbox]]:
    """Starts servers that take mail, with whatever aiosmtpd's own takes, and TLS from the first byte with `tls`."""
    running: list[asyncio.Server] = []

    def start(tls: ssl.SSLContext | None = None, **options: Any) -> Mailbox:
        mailbox = Mailbox()

        async def serve() -> asyncio.Server:
            return await loop.create_server(lambda: SMTP(mailbox, loop=loop, **options), "127.0.0.1", 0, ssl=tls)

        running.append(asyncio.run_coroutine_threadsafe(serve(), loop).result(10))
        mailbox.port = running[-1].sockets[0].getsockname()[1]
        return mailbox

    yield start
    for server in running:
        loop.call_soon_threadsafe(server.close)


@pytest.fixture
def mailbox(mail_server: Callable[..., Mailbox]) -> Mailbox:
    """A server on this machine that takes mail without any ado."""
    return mail_server()


def knows(name: str, password: str) -> Callable[..., AuthResult]:
    """What lets one name with one password sign in."""

    def check(server: SMTP, session: Session, envelope: Envelope, mechanism: str, data: LoginPassword) -> AuthResult:
        right = (data.login, data.password) == (name.encode(), password.encode())
        return AuthResult(success=right, handled=False)

    return check


@dataclass
class Hook:
    """Takes posts, or answers them as told; every post is kept as it came."""

    url: str = ""
    status: int = 204
    posts: list[tuple[str, dict[str, str], bytes]] = field(default_factory=list)
    arrived: threading.Event = field(default_factory=threading.Event)


@pytest.fixture
def hook_server() -> Iterator[Callable[..., Hook]]:
    """Starts servers that take webhooks."""
    running: list[ThreadingHTTPServer] = []

    def start(tls: ssl.SSLContext | None = None) -> Hook:
        hook = Hook()

        class Taker(BaseHTTPRequestHandler):
            def do_POST(self) -> None:
                body = self.rfile.read(int(self.headers["content-length"]))
                hook.posts.append((self.path, dict(self.headers.items()), body))
                self.send_response(hook.status)
                self.send_header("location", "/elsewhere")
                self.end_headers()
                hook.arrived.set()

            def log_message(self, *said: object) -> None:
                """Say nothing."""

        server = ThreadingHTTPServer(("127.0.0.1", 0), Taker)
        if tls:
            server.socket = tls.wrap_socket(server.socket, server_side=True)
        threading.Thread(target=server.serve_forever, daemon=True).start()
        running.append(server)
        hook.url = f"{'https' if tls else 'http'}://127.0.0.1:{server.server_address[1]}/calls?from=tundish"
        return hook

    yield start
    for server in running:
        server.shutdown()
        server.server_close()


@pytest.fixture
def hook(hook_server: Callable[..., Hook]) -> Hook:
    """A server on this machine that takes webhooks."""
    return hook_server()

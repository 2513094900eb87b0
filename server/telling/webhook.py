"""How is another program of the firm told, and how does it know that it is we who tell it?"""

import hmac
import http.client
import json
import ssl
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from typing import Final
from urllib.parse import urlsplit

from kb.firm import Firm
from server.settings import HookSettings, WrongSettings, secret_in
from server.store.outbox import Letter
from server.telling.courier import NotTold, Still
from server.telling.words import as_json

ID: Final = "Tundish-Id"
TIME: Final = "Tundish-Time"
SIGNATURE: Final = "Tundish-Signature"
PATIENCE: Final = 20.0
"""Seconds to wait for each answer of a server."""


@dataclass(frozen=True, slots=True)
class Webhook:
    """Tells by an HTTP POST of JSON, signed with a secret that both sides know."""

    settings: HookSettings
    firm: Firm
    now: Callable[[], datetime]
    trust: Callable[[], ssl.SSLContext] = ssl.create_default_context
    patience: float = PATIENCE
    way: str = "webhook"

    def tell(self, letter: Letter, still: Still) -> None:
        """Post a letter; raises NotTold unless the answer is a 2xx."""
        body = json.dumps(as_json(letter.request, self.firm, letter.key)).encode()
        expected = f"the webhook at {self._shown()} to take a request"
        try:
            headers = headers_for(body, letter.key, secret_in(self.settings.secret_file), self.now())
            status = self._post(body, headers, still)
        except WrongSettings as error:
            step = "Mend TUNDISH_WEBHOOK_SECRET_FILE."
            raise NotTold(expected, "that the secret's file cannot be read", step) from error
        except (OSError, http.client.HTTPException) as error:
            found = "a certificate or a TLS that cannot be trusted" if isinstance(error, ssl.SSLError) else "no answer"
            raise NotTold(expected, found, "See that it runs. It is tried again by itself.") from error
        if not 200 <= status < 300:
            # A redirect is not followed: what is about people goes only where the firm said.
            raise NotTold(expected, f"its answer {status}", "See its log. It is tried again by itself.")

    def _post(self, body: bytes, headers: Mapping[str, str], still: Still) -> int:
        to = urlsplit(self.settings.url)
        connection = self._connection(to.scheme, to.hostname or "", to.port)
        try:
            connection.connect()
            still()
            path = (to.path or "/") + (f"?{to.query}" if to.query else "")
            connection.request("POST", path, body, dict(headers))
            return connection.getresponse().status
        finally:
            connection.close()

    def _connection(self, scheme: str, host: str, port: int | None) -> http.client.HTTPConnection:
        if scheme == "https":
            return http.client.HTTPSConnection(host, port, timeout=self.patience, context=self.trust())
        return http.client.HTTPConnection(host, port, timeout=self.patience)

    def _shown(self) -> str:
        # What follows the host may be a secret of the receiver's.
        to = urlsplit(self.settings.url)
        return f"{to.scheme}://{to.hostname}"


def headers_for(body: bytes, key: str, secret: str, now: datetime) -> Mapping[str, str]:
    """What stands above a body: its id, when it was sent, and the proof that whoever sent it knows the secret."""
    at = str(int(now.timestamp()))
    return {
        "Content-Type": "application/json",
        "User-Agent": "Tundish",
        ID: key,
        TIME: at,
        SIGNATURE: signature(secret, at, body),
    }


def signature(secret: str, at: str, body: bytes) -> str:
    """HMAC-SHA256 (RFC 2104) over the time, a point and the body, in hexadecimal."""
    return hmac.new(secret.encode(), at.encode() + b"." + body, sha256).hexdigest()

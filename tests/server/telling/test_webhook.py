"""A webhook posted to a real server, and held against the standards by other means."""

import json
import socket
from datetime import UTC, datetime
from hashlib import sha256
from pathlib import Path

import pytest

from server.settings import HookSettings
from server.telling.courier import NotTold
from server.telling.webhook import ID, SIGNATURE, TIME, Webhook, signature
from tests.builders import firm
from tests.requests import NOW, TRIED, Clock, asked, letter
from tests.server.telling.conftest import Hook

SECRET = "kettle lamp orbit moss"


@pytest.fixture
def secret(tmp_path: Path) -> Path:
    (tmp_path / "secret").write_text(f"{SECRET}\n")
    return tmp_path / "secret"


def nothing() -> None:
    """There is time enough."""


def webhook(url: str, secret: Path, trust=None) -> Webhook:
    settings = HookSettings(url, secret)
    more = {"trust": trust} if trust else {}
    return Webhook(settings, firm(), Clock(), patience=5, **more)


def hmac_by_hand(secret: bytes, said: bytes) -> str:
    """HMAC as RFC 2104, section 2, writes it: H(K XOR opad, H(K XOR ipad, text)), the key filled up to 64 bytes."""
    key = secret.ljust(64, b"\0")
    inner = sha256(bytes(byte ^ 0x36 for byte in key) + said).digest()
    return sha256(bytes(byte ^ 0x5C for byte in key) + inner).hexdigest()


def test_a_request_is_posted_as_json(hook: Hook, secret: Path) -> None:
    webhook(hook.url, secret).tell(letter(), nothing)

    ((path, headers, body),) = hook.posts
    said = json.loads(body)
    assert path == "/calls?from=tundish"
    assert headers["Content-Type"] == "application/json"
    assert said == {
        "kind": "call-wanted",
        "id": "a" * 32,
        "reference": letter().request.reference,
        "asked": "2026-11-25T09:00:00+00:00",
        "pace": "today",
        "reach": "any",
        "expected": {"from": "2026-11-25T09:00:00+00:00", "to": "2026-11-25T17:30:00+00:00"},
        "name": "Any Person",
        "phone": "+441632960001",
        "tried": TRIED,
    }
    assert datetime.fromisoformat(said["asked"]) == NOW


def test_without_consent_what_was_tried_is_not_in_it(hook: Hook, secret: Path) -> None:
    webhook(hook.url, secret).tell(letter(asked(tried=None)), nothing)

    assert json.loads(hook.posts[0][2])["tried"] is None
    assert b"KM3EQ" not in hook.posts[0][2]


def test_the_signature_is_that_of_the_standard_over_time_and_body(hook: Hook, secret: Path) -> None:
    webhook(hook.url, secret).tell(letter(), nothing)

    _, headers, body = hook.posts[0]
    assert headers[ID] == "a" * 32
    assert headers[TIME] == str(int(NOW.astimezone(UTC).timestamp()))
    assert headers[SIGNATURE] == hmac_by_hand(SECRET.encode(), headers[TIME].encode() + b"." + body)


def test_another_time_body_or_secret_has_another_signature() -> None:
    signed = {
        signature(*said) for said in ((SECRET, "1", b"2"), (SECRET, "1", b"3"), (SECRET, "2", b"2"), ("x", "1", b"2"))
    }

    assert len(signed) == 4


@pytest.mark.parametrize("status", [301, 302, 307, 400, 401, 404, 410, 500, 503])
def test_anything_but_a_yes_is_not_told_and_a_redirect_is_not_followed(hook: Hook, secret: Path, status: int) -> None:
    hook.status = status

    with pytest.raises(NotTold, match=f"its answer {status}"):
        webhook(hook.url, secret).tell(letter(), nothing)

    assert len(hook.posts) == 1


@pytest.mark.parametrize("status", [200, 202, 204])
def test_a_yes_of_any_kind_is_one(hook: Hook, secret: Path, status: int) -> None:
    hook.status = status

    webhook(hook.url, secret).tell(letter(), nothing)


def test_over_tls_a_server_must_be_vouched_for(hook_server, proof, trusting, secret: Path) -> None:
    hook = hook_server(tls=proof)
    webhook(hook.url, secret, trusting).tell(letter(), nothing)
    assert len(hook.posts) == 1

    with pytest.raises(NotTold, match="cannot be trusted"):
        webhook(hook.url, secret).tell(letter(), nothing)
    assert len(hook.posts) == 1


def test_what_cannot_be_reached_is_told_without_a_word_of_the_household_or_the_path(secret: Path) -> None:
    with socket.socket() as unheard:
        unheard.bind(("127.0.0.1", 0))
        url = f"http://127.0.0.1:{unheard.getsockname()[1]}/a-secret-path"

        with pytest.raises(NotTold, match="found no answer") as told:
            webhook(url, secret).tell(letter(), nothing)

    assert not [word for word in ("Any Person", "1632", "Errno", "a-secret-path") if word in str(told.value)]


def test_a_secret_that_is_gone_is_told(hook: Hook, secret: Path) -> None:
    secret.unlink()

    with pytest.raises(NotTold, match="TUNDISH_WEBHOOK_SECRET_FILE"):
        webhook(hook.url, secret).tell(letter(), nothing)
    assert hook.posts == []


def test_who_is_too_late_posts_nothing(hook: Hook, secret: Path) -> None:
    def too_late() -> None:
        raise NotTold("to be in time", "that it is too late", "Try again.")

    with pytest.raises(NotTold, match="too late"):
        webhook(hook.url, secret).tell(letter(), too_late)
    assert hook.posts == []

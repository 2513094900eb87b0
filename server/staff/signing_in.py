"""May somebody come in who gives this name, password and code from this address?"""

from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import StrEnum
from hashlib import sha256
from secrets import token_urlsafe
from typing import Final

import pyotp

from kb.staff import LONGEST_PASSWORD
from server.staff import passwords
from server.store.staff import Staff

WINDOW: Final = timedelta(minutes=15)
"""How far back failures count."""

MOST_FOR_BOTH: Final = 5
"""Failures of one name from one address, after which this pair must wait."""

MOST_FOR_ONE: Final = 30
"""Failures of one name from anywhere, or from one address for any name.

After so many, only a name that signed in well at that address before may go on.
So neither guessing from many places nor a flood from one shuts the firm's own people out.
"""

_SECONDS: Final = 30


class Refusal(StrEnum):
    """Why nobody was let in."""

    WRONG = "wrong"
    CODE_WANTED = "code-wanted"
    WAIT = "wait"


@dataclass(frozen=True, slots=True)
class Entry:
    """What the browser shall hold from now on."""

    token: str


def session_id(token: str) -> str:
    """The name under which the store knows a session: the hash of what the browser holds."""
    return sha256(token.encode()).hexdigest()


def sign_in(staff: Staff, name: str, password: str, code: str, address: str, now: datetime) -> Entry | Refusal:
    """Let somebody in, or say why not; which of the three was wrong is never said."""
    if _must_wait(staff, name, address, now):
        return Refusal.WAIT
    kept = staff.credentials(name)
    if not passwords.is_right(password[:LONGEST_PASSWORD], kept.password if kept else None) or kept is None:
        staff.note_try(name, address, now, well=False)
        return Refusal.WRONG
    if kept.code_secret is not None and not code:
        return Refusal.CODE_WANTED
    if kept.code_secret is not None and not _takes(staff, name, kept.code_secret, code, now):
        staff.note_try(name, address, now, well=False)
        return Refusal.WRONG
    if passwords.is_outdated(kept.password):
        staff.set_password(name, passwords.hashed(password))
    staff.note_try(name, address, now, well=True)
    token = token_urlsafe(32)
    staff.begin_session(session_id(token), name, now)
    return Entry(token)


def confirm(staff: Staff, name: str, password: str, address: str, now: datetime) -> Refusal | None:
    """Is it still the account's own person who is about to change who may come in? None if it is."""
    if _must_wait(staff, name, address, now):
        return Refusal.WAIT
    kept = staff.credentials(name)
    right = passwords.is_right(password[:LONGEST_PASSWORD], kept.password if kept else None)
    staff.note_try(name, address, now, well=right)
    return None if right else Refusal.WRONG


def _must_wait(staff: Staff, name: str, address: str, now: datetime) -> bool:
    since = now - WINDOW
    if staff.failures(since, name, address) >= MOST_FOR_BOTH:
        return True
    pressed = staff.failures(since, name=name) >= MOST_FOR_ONE or staff.failures(since, address=address) >= MOST_FOR_ONE
    return pressed and not staff.known_at(name, address)


def _takes(staff: Staff, name: str, secret: str, code: str, now: datetime) -> bool:
    """Whether a code is that of this half minute or its neighbours (RFC 6238, 5.2), and was not used before."""
    codes = pyotp.TOTP(secret)
    tidy = code.replace(" ", "")
    here = int(now.timestamp()) // _SECONDS
    for step in (here, here - 1, here + 1):
        if pyotp.utils.strings_equal(tidy, codes.generate_otp(step)):
            return staff.take_code(name, step)
    return False

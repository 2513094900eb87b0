"""Is this the password, and how is one kept?"""

from functools import cache
from threading import BoundedSemaphore
from typing import Final

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerifyMismatchError

# A hash takes 64 MB on purpose; a flood of tries must not take all there is.
_AT_ONCE: Final = BoundedSemaphore(2)


@cache
def _hasher() -> PasswordHasher:
    # The library's own defaults are the second recommendation of RFC 9106.
    return PasswordHasher()


@cache
def _nobodys() -> str:
    return hashed("the password of nobody")


def hashed(password: str) -> str:
    """What is kept of a password."""
    with _AT_ONCE:
        return _hasher().hash(password)


def is_right(password: str, kept: str | None) -> bool:
    """Whether it is the password that was kept; as slow for a name that is nobody's, which must not show."""
    against = kept or _nobodys()
    with _AT_ONCE:
        try:
            return _hasher().verify(against, password) and kept is not None
        except (VerifyMismatchError, InvalidHashError):
            return False


def is_outdated(kept: str) -> bool:
    """Whether a hash was made with weaker settings than today's."""
    return _hasher().check_needs_rehash(kept)

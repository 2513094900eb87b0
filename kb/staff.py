"""Who works for the firm, what may each of them do, and is a password one that may be used?"""

import secrets
from collections.abc import Set
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

SHORTEST_PASSWORD: Final = 12
LONGEST_PASSWORD: Final = 200
LONGEST_NAME: Final = 60
_FEWEST_DIFFERENT: Final = 6
_LETTERS: Final = "abcdefghjkmnpqrstuvwxyz23456789"


class Role(StrEnum):
    """What somebody's work is; one person may do several."""

    DESK = "desk"
    ENGINEER = "engineer"
    OFFICE = "office"


@dataclass(frozen=True, slots=True)
class Account:
    """Somebody who signs in: a name, the roles, and whether a one-time code is asked for as well."""

    name: str
    roles: frozenset[Role]
    with_code: bool = False

    def may(self, role: Role | None) -> bool:
        """Whether this account may do what a role does; None stands for what every account may do."""
        return role is None or role in self.roles


def wrong_name(name: str) -> str | None:
    """Why a name cannot be an account's, or None if it can."""
    if not 2 <= len(name) <= LONGEST_NAME or not name.isprintable() or name != " ".join(name.split()):
        return f"Expected a name of 2 to {LONGEST_NAME} letters, found {name!r}. Write it as it is said, in one line."
    return None


def weakness(password: str, name: str, common: Set[str] = frozenset()) -> str | None:
    """Why a password may not be used, or None if it may.

    Long and not guessable, no rules about kinds of characters (NIST SP 800-63B, section on passwords, from memory).
    """
    plain = password.casefold()
    if not SHORTEST_PASSWORD <= len(password) <= LONGEST_PASSWORD:
        return (
            f"Expected {SHORTEST_PASSWORD} to {LONGEST_PASSWORD} characters, found {len(password)}. "
            "Four words that do not belong together are easy to keep in mind."
        )
    if len(set(plain)) < _FEWEST_DIFFERENT or plain in common:
        return "Expected a password that is hard to guess, found one that is tried first. Use four unrelated words."
    if any(len(part) > 2 and part in plain for part in name.casefold().split()):
        return "Expected a password without your own name, found it in there. Use four unrelated words."
    return None


def made_password() -> str:
    """A password of twenty characters without look-alikes, in groups that can be read out: 99 bits of chance."""
    return "-".join("".join(secrets.choice(_LETTERS) for _ in range(5)) for _ in range(4))

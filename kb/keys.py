"""Which key opens a home's page, and was it typed as it was printed?"""

import re
import secrets
from collections.abc import Iterator
from typing import Final, Protocol

ALPHABET: Final = "23479ACDEFHJKMNPQRTUWXY"
"""The characters of a key: 23 of them, a prime, none easily taken for another."""

RANDOM_CHARACTERS: Final = 14
"""How much of a key is chance: 14 characters of 23 are over 63 bits."""

_GROUP: Final = 5
_LONGEST_TYPED: Final = 64
_BETWEEN: Final = re.compile(r"[\s\-\u2010-\u2015\u2212]+")


class Chooser(Protocol):
    """Where the chance in a key comes from: the module `secrets`, or a seeded stand-in."""

    def choice(self, seq: str, /) -> str:
        """One of the characters."""
        ...


def make(random: Chooser = secrets) -> str:
    """A new key, as it is printed: three groups of five, the last character checking the others."""
    chosen = "".join(random.choice(ALPHABET) for _ in range(RANDOM_CHARACTERS))
    return _grouped(chosen + _check(chosen))


def tidy(written: str) -> str | None:
    """The key somebody typed in any case, with any spaces and dashes, as it is printed.

    None unless it has the right length and characters, and its check holds.
    """
    if len(written) > _LONGEST_TYPED:
        return None
    typed = _BETWEEN.sub("", written)
    key = typed.upper()
    # Upper case makes two letters of some single ones, so what was typed must be plain before that.
    if not typed.isascii() or len(key) != RANDOM_CHARACTERS + 1 or set(key) - set(ALPHABET):
        return None
    return _grouped(key) if _check(key[:-1]) == key[-1] else None


def beginning(written: str, fewest: int) -> str:
    """The beginning of a key that somebody typed, as it is printed; empty for what cannot be one, or is too short."""
    typed = _BETWEEN.sub("", written[:_LONGEST_TYPED])
    key = typed.upper()
    plain = typed.isascii() and len(written) <= _LONGEST_TYPED and not set(key) - set(ALPHABET)
    return _grouped(key) if plain and fewest <= len(key) <= RANDOM_CHARACTERS else ""


def _check(chosen: str) -> str:
    """The character that catches every single wrong character and every swap of two neighbours.

    Each place has a weight of its own below the prime, so no such slip leaves the weighted sum as it was.
    """
    return ALPHABET[sum(place * ALPHABET.index(sign) for place, sign in enumerate(chosen, 1)) % len(ALPHABET)]


def _grouped(key: str) -> str:
    return "-".join(_groups(key))


def _groups(key: str) -> Iterator[str]:
    for start in range(0, len(key), _GROUP):
        yield key[start : start + _GROUP]

"""What is a word without its ending, so that "leaks", "leaked" and "leaking" are one?"""

from functools import lru_cache
from typing import Final

_VOWELS: Final = frozenset("aeiouy")
_STAY_DOUBLE: Final = frozenset("lsz")
_HISSING: Final = ("s", "x", "z", "ch", "sh")


@lru_cache(maxsize=16_384)
def stem(word: str) -> str:
    """The word without plural, -ed, -ing and silent e; short words stay as they are."""
    if len(word) <= 3:
        return word
    word = _singular(word)
    for ending in ("ing", "ed"):
        rest = word.removesuffix(ending)
        if rest != word and len(rest) >= 2 and not word.endswith("eed") and _VOWELS & set(rest):
            return _closed(rest)
    return _closed(word)


def _singular(word: str) -> str:
    if word.endswith(("ies", "ied")):
        return word[:-3] + "y"
    if word.endswith("es") and word[:-2].endswith(_HISSING):
        return word[:-2]
    return word[:-1] if word.endswith("s") and not word.endswith(("ss", "us", "is")) else word


def _closed(word: str) -> str:
    if len(word) > 3 and word[-1] == word[-2] and word[-1] not in _STAY_DOUBLE | _VOWELS:
        return word[:-1]
    return word[:-1] if len(word) > 3 and word.endswith("e") else word

